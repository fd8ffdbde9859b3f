/** Guides list procedures that exist, each once. */
import { nearestNames } from '../registers/index.ts';
import type { LibraryCheck } from './check.ts';
import { eachAction } from './visit.ts';

const head = '---\nid: FX-500\ntitle: Mixer guide\nrevision: "A"\ndate: 2026-01-15\n---\n\n## Opening\n\n';

export const guideLists: LibraryCheck = {
  id: 'guide-lists',
  scope: 'library',
  severity: 'error',
  question: 'Does every guide list procedures that exist, each once, and all that they call?',
  why: 'A bound guide goes where no other page can be fetched. What it sends the reader to must be in it.',
  source: 'format rule F13; IEC/IEEE 82079-1 (from memory), completeness',
  cases: [
    { name: 'a number that does not exist', finds: 1, files: { 'guides/FX-500.md': `${head}- [FX-107]\n` } },
    { name: 'twice the same', finds: 1, files: { 'guides/FX-500.md': `${head}- [FX-100]\n- [FX-100]\n` } },
    { name: 'each once', finds: 0, files: { 'guides/FX-500.md': `${head}- [FX-100]\n` } },
  ],
  *run({ guides, procedures }) {
    const numbers = new Map(procedures.map((procedure) => [procedure.head.id, procedure]));
    for (const { file, tree } of guides) {
      const seen = new Set<string>();
      const entries = tree.parts.flatMap((part) => part.entries);
      for (const { document, span } of entries) {
        if (!numbers.has(document)) {
          const [nearest] = nearestNames(document, [...numbers.keys()].sort(), 1);
          yield {
            file,
            span,
            message: `The guide lists ${document}, which is no procedure of this library.`,
            actual: document,
            expected: nearest ?? 'the number of a procedure',
          };
        } else if (seen.has(document))
          yield { file, span, message: `The guide lists ${document} twice.`, actual: 'twice', expected: 'once; other places refer to it' };
        seen.add(document);
      }
      for (const { document, span } of entries)
        for (const called of documentsCalled(numbers.get(document)))
          if (numbers.has(called) && !seen.has(called)) {
            seen.add(called);
            yield {
              file,
              span,
              severity: 'warning',
              message: `${document} sends the reader to ${called}, which is not in this guide.`,
              actual: `${called} is not listed`,
              expected: `${called} under one of the parts`,
            };
          }
    }
  },
};

/** Numbers of the documents that it sends its reader through. */
export function documentsCalled(procedure: { read: Parameters<typeof eachAction>[0] } | undefined): string[] {
  if (!procedure) return [];
  const out: string[] = [];
  for (const { action } of eachAction(procedure.read)) {
    if (action.target?.kind === 'document') out.push(action.target.number);
    else if (action.target?.kind === 'section' && action.target.document !== undefined) out.push(action.target.document);
  }
  return out;
}
