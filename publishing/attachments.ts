/** What travels inside a printed file when asked for: the text each procedure was made from, and its checklist as data. */
import type { LibraryFacts, ProcedureFacts, SourceText } from '../procedures-schema/index.ts';
import { checklistOf, writeChecklist } from './checklist/index.ts';
import type { ComposeInput } from './compose/index.ts';
import type { Attachment } from './pdf/index.ts';
import { printedWords } from './printed-words/index.ts';

type Guide = LibraryFacts['guides'][number];

/** For a guide the guide's own text too. Checklists are those of the edition printed; `language`: that of its printed words. */
export function attachmentsOf(
  procedures: readonly ProcedureFacts[],
  guide: Guide | undefined,
  input: ComposeInput,
  language: string = input.library.registers.house.language,
): readonly Attachment[] {
  const { attached } = printedWords(language).book;
  const encoder = new TextEncoder();
  const text = (source: SourceText, about: string): Attachment => ({
    name: source.path.slice(source.path.lastIndexOf('/') + 1),
    bytes: encoder.encode(`${source.bom ? '\ufeff' : ''}${source.text}`),
    type: 'text/markdown',
    about,
  });
  return [
    ...(guide === undefined ? [] : [text(guide.tree.source, attached.text.replace('{n}', guide.head.id))]),
    ...procedures.flatMap((facts): Attachment[] => [
      text(facts.source, attached.text.replace('{n}', facts.head.id)),
      {
        name: `${facts.head.id}-checklist.json`,
        bytes: encoder.encode(writeChecklist(checklistOf(facts, input))),
        type: 'application/json',
        about: attached.checklist.replace('{n}', facts.head.id),
      },
    ]),
  ];
}
