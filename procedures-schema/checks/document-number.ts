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
      name: 'a number that is taken',
      finds: 1,
      files: {
        'guides/FX-100.md': '---\nid: FX-100\ntitle: Mixer guide\nrevision: "A"\ndate: 2026-01-15\n---\n\n## Opening\n\n- [FX-100]\n',
      },
    },
    { name: 'a number of the pattern', finds: 0 },
  ],
  *run(library) {
    const pattern = library.registers.house.documentNumber;
    const form = pattern === undefined ? undefined : patternOf(pattern);
    const first = new Map<string, string>();
    const files = [...library.procedures, ...library.guides].sort((a, b) => (a.file < b.file ? 1 : a.file > b.file ? -1 : 0));
    // Procedures are looked at before guides, so a guide that takes a procedure's number is the one to change.
    for (const { file, head } of files) {
      if (head.id === '') continue;
      if (form && !form.test(head.id))
        yield {
          file,
          span: head.idSpan,
          message: `Document number ${head.id} does not follow the house pattern.`,
          actual: head.id,
          expected: `a number of the form ${pattern}`,
        };
      const other = first.get(head.id);
      if (other !== undefined)
        yield {
          file,
          span: head.idSpan,
          message: `Document number ${head.id} is already the number of ${other}.`,
          actual: head.id,
          expected: 'a number that no other document has',
        };
      else first.set(head.id, file);
    }
    for (const { number, origin } of library.registers.documents) {
      const other = first.get(number);
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
