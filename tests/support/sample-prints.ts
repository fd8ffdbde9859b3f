/** What is printed of the sample library, by name: the files whose hashes are kept, and that every reader must take. Pure: runs in a browser's worker too. */
import type { LibraryFacts } from '../../procedures-schema/index.ts';
import {
  attachmentsOf,
  type ComposeInput,
  checklistOf,
  type FontFiles,
  guideBook,
  printBook,
  printSheets,
  procedureBook,
  shortGuide,
  shortProcedure,
  writeChecklist,
} from '../../publishing/index.ts';

export interface SamplePrint {
  readonly name: string;
  readonly make: () => Uint8Array;
}

/** `input` as for every edition; drafts and models are chosen here. */
export function samplePrints(library: LibraryFacts, input: ComposeInput, fonts: FontFiles): readonly SamplePrint[] {
  const procedure = (number: string) => {
    const found = library.procedures.find(({ head }) => head.id === number);
    if (found === undefined) throw new Error(`the sample library has no ${number}`);
    return found;
  };
  const lip = procedure('OM-3140');
  const shoes = procedure('OM-2120');
  return [
    ...library.guides.flatMap((guide): SamplePrint[] => [
      { name: `${guide.head.id}.pdf`, make: () => printBook(guideBook(guide, input), fonts).bytes },
      { name: `${guide.head.id}-short.pdf`, make: () => printBook(shortGuide(guide, input), fonts).bytes },
    ]),
    { name: 'OM-3140-letter.pdf', make: () => printBook(procedureBook(lip, input, { paper: 'letter' }), fonts).bytes },
    { name: 'OM-3140-a5-large.pdf', make: () => printBook(procedureBook(lip, input, { paper: 'a5', large: true }), fonts).bytes },
    { name: 'OM-3140-inch.pdf', make: () => printBook(procedureBook(lip, { ...input, units: 'inch-first' }), fonts).bytes },
    {
      name: 'OM-2120-two-up.pdf',
      make: () => printSheets(procedureBook(shoes, input), fonts, { kind: 'two-up', sheet: 'a4', thickness: 0, marks: false }).bytes,
    },
    { name: 'OM-3140-DL-25.pdf', make: () => printBook(procedureBook(lip, { ...input, model: 'DL-25' }), fonts).bytes },
    { name: 'OM-2120-draft.pdf', make: () => printBook(procedureBook(shoes, { ...input, draft: true }), fonts).bytes },
    {
      name: 'OM-3140-form.pdf',
      make: () =>
        printBook(shortProcedure(lip, input), fonts, { fillable: true, attachments: attachmentsOf([lip], undefined, input) }).bytes,
    },
    {
      name: 'OM-3140-booklet.pdf',
      make: () =>
        printSheets(shortProcedure(lip, input), fonts, { kind: 'booklet', sheet: 'a3', thickness: 283, marks: true, test: true }).bytes,
    },
    { name: 'OM-3140.json', make: () => new TextEncoder().encode(writeChecklist(checklistOf(lip, input))) },
  ];
}
