/** Document numbers follow the house pattern and are each used once. */
import type { LibraryCheck } from './check.ts';

export const documentNumber: LibraryCheck = {
  id: 'document-number',
  scope: 'library',
  severity: 'error',
  question: 'Does every document number follow the house pattern, and is it the only one of its kind?',
  why: 'A technician asks for the page by its number. Two pages with one number, and half the field works from the wrong one.',
  source: 'house style in library.yaml; ISO 9001:2015, 7.5.2 identification (from memory)',
  cases: [
    { name: 'a number of another pattern', finds: 1, front: 'id: FX-1000\n    ^^^^^^^' },
    {
      name: 'a number that is taken, told at both',
      finds: 2,
      files: {
        'guides/FX-100.md': '---\nid: FX-100\ntitle: Mixer guide\nrevision: "A"\ndate: 2026-01-15\n---\n\n## Opening\n\n- [FX-100]\n',
      },
    },
    { name: 'a number of the pattern', finds: 0 },
  ],
  *run(library) {
    const pattern = library.registers.house.documentNumber;
    const form = pattern === undefined ? undefined : patternOf(pattern);
    const bearers = new Map<string, string[]>();
    const documents = [...library.procedures, ...library.guides].filter(({ head }) => head.id !== '');
    for (const { file, head } of documents) bearers.set(head.id, [...(bearers.get(head.id) ?? []), file]);
    for (const { file, head } of documents) {
      if (form && !form.test(head.id))
        yield {
          file,
          span: head.idSpan,
          message: `Document number ${head.id} does not follow the house pattern.`,
          actual: head.id,
          expected: `a number of the form ${pattern}`,
        };
      // Told at each of them, because which one is wrong only the writer knows, and neither may go out.
      const others = (bearers.get(head.id) ?? []).filter((one) => one !== file).sort();
      if (others.length > 0)
        yield {
          file,
          span: head.idSpan,
          message: `Document number ${head.id} is the number of ${others.join(' and of ')} too.`,
          actual: head.id,
          expected: 'a number that no other document has',
        };
    }
    for (const { number, origin } of library.registers.documents) {
      const other = bearers.get(number)?.[0];
      if (other !== undefined)
        yield {
          file: origin.file,
          span: origin.span,
          message: `${number} is cited as a document from elsewhere, but ${other} in this library has that number.`,
          expected: 'take it out of the register; a reference finds the procedure by itself',
        };
    }
  },
};

/** The house pattern as a whole match; a pattern that is none is reported with library.yaml. */
function patternOf(source: string): RegExp | undefined {
  try {
    return new RegExp(`^(?:${source})$`, 'u');
  } catch {
    return undefined;
  }
}
