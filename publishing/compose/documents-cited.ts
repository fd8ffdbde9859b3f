/** Documents the procedures of a guide cite and that live elsewhere: revision, where to ask for them, who cites them. */
import type { CitedDocument, ProcedureFacts } from '../../procedures-schema/index.ts';
import type { Chapter, Inline } from '../book.ts';
import { type ComposeInput, chapterAnchor } from './scope.ts';
import { wordsOf } from './spoken.ts';

const text = (said: string): Inline[] => (said === '' ? [] : [{ kind: 'text', text: said }]);

/** undefined where nothing is cited. */
export function documentsChapter(procedures: readonly ProcedureFacts[], input: ComposeInput, startRight: boolean): Chapter | undefined {
  const { documents } = input.library.registers;
  const words = wordsOf(input).guide;
  const rows = documents.flatMap((document) => {
    const by = procedures.filter((facts) => cites(facts, document, input));
    if (by.length === 0) return [];
    const also = document.aliases.length === 0 ? '' : ` (${document.aliases.join(', ')})`;
    return [
      [
        [{ kind: 'strong', text: document.number } as const, ...text(` ${document.title}${also}`)],
        text(document.revision ?? ''),
        text(document.ask),
        by.flatMap(({ head }, index): Inline[] => [
          ...text(index === 0 ? '' : ', '),
          { kind: 'link', text: head.id, anchor: chapterAnchor(head.id), page: false },
        ]),
      ],
    ];
  });
  if (rows.length === 0) return undefined;
  return {
    title: words.documentsTitle,
    anchor: 'documents',
    startRight,
    blocks: [
      { kind: 'paragraph', style: 'lead', inline: text(words.documentsIntro) },
      {
        kind: 'table',
        head: words.documentsHead.map(text),
        rows,
        align: ['left', 'left', 'left', 'left'],
        widths: [385, 100, 255, 260],
        full: true,
      },
    ],
  };
}

/** Named in brackets in its text, or the safety data of a consumable it uses. */
function cites(facts: ProcedureFacts, document: CitedDocument, input: ComposeInput): boolean {
  const names = new Set([document.number, ...document.aliases].map((name) => name.toLowerCase()));
  for (const [, name = ''] of facts.tree.source.text.matchAll(/\[([^\]\n]+)\]/g)) if (names.has(name.trim().toLowerCase())) return true;
  return facts.head.consumables.some(({ name }) =>
    input.library.registers.consumables.some(
      (one) => (one.name === name || one.aliases.includes(name)) && one.safetyData === document.number,
    ),
  );
}
