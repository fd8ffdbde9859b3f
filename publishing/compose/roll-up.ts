/** All tools of a book on one list, with the procedures that ask for them. */
import type { ListedName, ProcedureFacts } from '../../procedures-schema/index.ts';
import type { Chapter, Inline } from '../book.ts';
import { detailOf } from './front.ts';
import { type ComposeInput, chapterAnchor } from './scope.ts';
import { bookWords } from './words.ts';

export function toolsChapter(procedures: readonly ProcedureFacts[], input: ComposeInput, startRight: boolean): Chapter {
  const { registers } = input.library;
  const words = bookWords(registers.house.language);
  const rows = new Map<string, { entry: ListedName; numbers: string[] }>();
  for (const { head, names } of procedures)
    for (const entry of [...head.tools, ...head.protection]) {
      if (entry.name === 'none') continue;
      const name = names.lookup(entry.name).find((thing) => thing.kind === 'tool')?.name ?? entry.name;
      const row = rows.get(name) ?? { entry: { name, span: entry.span }, numbers: [] };
      if (!row.numbers.includes(head.id)) row.numbers.push(head.id);
      rows.set(name, row);
    }
  const text = (said: string): Inline[] => (said === '' ? [] : [{ kind: 'text', text: said }]);
  const sorted = [...rows.values()].sort((a, b) => (a.entry.name < b.entry.name ? -1 : 1));
  return {
    title: words.toolsTitle,
    anchor: 'tools',
    startRight,
    blocks: [
      { kind: 'paragraph', style: 'lead', inline: text(words.toolsIntro) },
      {
        kind: 'table',
        head: [text('Tool'), text(words.needsHead[2]), text('Procedures')],
        rows: sorted.map(({ entry, numbers }) => [
          [{ kind: 'strong', text: entry.name }],
          text(detailOf(entry, registers, { words })),
          numbers.flatMap((number, index): Inline[] => [
            ...text(index === 0 ? '' : ', '),
            { kind: 'link', text: number, anchor: chapterAnchor(number), page: false },
          ]),
        ]),
        align: ['left', 'left', 'left'],
      },
    ],
  };
}
