/** What all procedures of a book ask for, on one list a kind: tools, consumables, parts, with the procedures that ask for each. */
import type { ListedName, ProcedureFacts } from '../../procedures-schema/index.ts';
import type { BookBlock, Chapter, Inline } from '../book.ts';
import { detailOf } from './front.ts';
import { type ComposeInput, chapterAnchor } from './scope.ts';
import { wordsOf } from './spoken.ts';

type Head = ProcedureFacts['head'];

const text = (said: string): Inline[] => (said === '' ? [] : [{ kind: 'text', text: said }]);

export function toolsChapter(procedures: readonly ProcedureFacts[], input: ComposeInput, startRight: boolean): Chapter {
  const words = wordsOf(input).guide;
  const lists: readonly (readonly [string, (head: Head) => readonly ListedName[]])[] = [
    [words.tools, ({ tools, protection }) => [...tools, ...protection]],
    [words.consumables, ({ consumables }) => consumables],
    [words.parts, ({ parts }) => parts],
  ];
  return {
    title: words.thingsTitle,
    anchor: 'tools',
    startRight,
    blocks: [
      { kind: 'paragraph', style: 'lead', inline: text(words.thingsIntro) },
      ...lists.flatMap(([title, listOf]) => listed(title, listOf, procedures, input)),
    ],
  };
}

function listed(
  title: string,
  listOf: (head: Head) => readonly ListedName[],
  procedures: readonly ProcedureFacts[],
  input: ComposeInput,
): BookBlock[] {
  const { registers } = input.library;
  const words = wordsOf(input).guide;
  const rows = new Map<string, { entry: ListedName; numbers: string[] }>();
  for (const { head, names } of procedures)
    for (const entry of listOf(head)) {
      if (entry.name === 'none') continue;
      if (input.model !== undefined && entry.models !== undefined && !entry.models.includes(input.model)) continue;
      const name =
        names.lookup(entry.name).find((thing) => thing.kind === 'tool' || thing.kind === 'consumable' || thing.kind === 'replacement')
          ?.name ?? entry.name;
      const row = rows.get(name) ?? { entry: { name, span: entry.span }, numbers: [] };
      if (!row.numbers.includes(head.id)) row.numbers.push(head.id);
      rows.set(name, row);
    }
  if (rows.size === 0) return [];
  const sorted = [...rows.values()].sort((a, b) => (a.entry.name < b.entry.name ? -1 : 1));
  return [
    { kind: 'heading', level: 2, text: title, bookmark: false },
    {
      kind: 'table',
      head: words.thingHead.map(text),
      rows: sorted.map(({ entry, numbers }) => [
        [{ kind: 'strong', text: entry.name }],
        text(detailOf(entry, registers, { words: wordsOf(input).book }, false)),
        numbers.flatMap((number, index): Inline[] => [
          ...text(index === 0 ? '' : ', '),
          { kind: 'link', text: number, anchor: chapterAnchor(number), page: false },
        ]),
      ]),
      align: ['left', 'left', 'left'],
      full: true,
    },
  ];
}
