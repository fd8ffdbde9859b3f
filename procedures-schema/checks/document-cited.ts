/** Documents and procedures referred to exist here or are registered with where to ask for them. */

import type { Span } from '../finding.ts';
import { nearestNames } from '../registers/index.ts';
import type { LibraryFacts, ProcedureCheck } from './check.ts';
import { eachAction, proseOf } from './visit.ts';

export const documentCited: ProcedureCheck = {
  id: 'document-cited',
  scope: 'procedure',
  acrossFiles: true,
  severity: 'error',
  question: 'Is every document that is named in this library, or registered with where to ask for it?',
  why: 'A technician sent to a document nobody can find stops, or goes on without it.',
  source: 'design: send the reader on to the next procedure or document',
  cases: [
    { name: 'a number that is nowhere', finds: 1, work: '#. Clean the [scraper] as in FX-700.' },
    { name: 'a registered document', finds: 0, work: '#. Clean the [scraper], see [FX-900].' },
  ],
  *run({ file, head, tree, read }, library) {
    const known = numbersIn(library);
    const { documentNumber } = library.registers.house;
    const pattern = documentNumber === undefined ? undefined : patternOf(documentNumber);
    const said = new Set<number>();
    const places: { number: string; span: Span }[] = head.requires.map(({ name, span }) => ({ number: name, span }));
    for (const { action, span } of eachAction(read)) {
      if (action.target?.kind === 'document') places.push({ number: action.target.number, span });
      if (action.target?.kind === 'section' && action.target.document !== undefined) places.push({ number: action.target.document, span });
    }
    if (pattern !== undefined)
      for (const prose of proseOf(tree))
        for (const mark of prose.marks)
          if (mark.kind === 'reference' && mark.form.kind === 'name' && matches(pattern, mark.form.name))
            places.push({ number: mark.form.name, span: mark.span });
    for (const { number, span } of places) {
      if (known.has(number) || said.has(span.start)) continue;
      said.add(span.start);
      const [nearest] = nearestNames(number, [...known].sort(), 1);
      yield {
        file,
        span,
        message: `${number} is neither in this library nor registered as a document from elsewhere.`,
        actual: number,
        expected: nearest
          ? `${nearest}, or an entry in registers/documents.yaml that says where to ask`
          : 'an entry in registers/documents.yaml',
      };
    }
  },
};

/** Every document number there is; each procedure asks. */
function numbersIn(library: LibraryFacts): ReadonlySet<string> {
  const made =
    NUMBERS.get(library) ??
    new Set([
      ...library.procedures.map((other) => other.head.id),
      ...library.guides.map((guide) => guide.head.id),
      ...library.registers.documents.map((document) => document.number),
    ]);
  NUMBERS.set(library, made);
  return made;
}
const NUMBERS = new WeakMap<LibraryFacts, ReadonlySet<string>>();

function matches(pattern: RegExp | undefined, text: string): boolean {
  return pattern?.test(text) ?? false;
}

function patternOf(source: string): RegExp | undefined {
  try {
    return new RegExp(`^(?:${source})$`, 'u');
  } catch {
    return undefined;
  }
}
