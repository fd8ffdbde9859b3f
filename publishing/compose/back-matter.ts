/** The last leaves of a bound guide: record of revisions, list of pages in force, where to ask. */
import type { ProcedureFacts } from '../../procedures-schema/index.ts';
import type { BookBlock, Chapter, Inline } from '../book.ts';
import type { ComposeInput } from './scope.ts';
import { type Issue, toldSince } from './since.ts';
import { wordsOf } from './spoken.ts';

const text = (said: string): Inline[] => (said === '' ? [] : [{ kind: 'text', text: said }]);
const strong = (said: string): Inline[] => (said === '' ? [] : [{ kind: 'strong', text: said }]);

export interface IssueFacts {
  readonly id: string;
  readonly title: string;
  readonly revision?: string;
  readonly date?: string;
}

export function recordChapter(
  guide: IssueFacts,
  procedures: readonly ProcedureFacts[],
  chapters: readonly Chapter[],
  issue: Issue | undefined,
  input: ComposeInput,
  startRight: boolean,
): Chapter {
  const words = wordsOf(input).guide;
  const row = ({ id, title, revision, date }: IssueFacts): Inline[][] => [strong(id), text(title), text(revision ?? ''), text(date ?? '')];
  return {
    title: words.recordTitle,
    anchor: 'record',
    startRight,
    blocks: [
      { kind: 'paragraph', style: 'lead', inline: text(words.recordIntro) },
      {
        kind: 'table',
        head: words.recordHead.map(text),
        rows: [row(guide), ...procedures.map(({ head }) => row(head))],
        align: ['left', 'left', 'left', 'left'],
        full: true,
      },
      ...changesTable(chapters, issue, input),
      { kind: 'heading', level: 2, text: words.entered, bookmark: false },
      { kind: 'paragraph', style: 'sent', inline: text(words.enteredIntro) },
      // Empty rows, tall enough for handwriting.
      {
        kind: 'table',
        head: words.enteredHead.map(text),
        rows: Array.from({ length: 8 }, () => [[], [], [], []]),
        align: ['left', 'left', 'left', 'left'],
        full: true,
        writable: true,
        whole: true,
      },
    ],
  };
}

/** Where the bars in the margins are, when an earlier issue was given to compare with. */
function changesTable(chapters: readonly Chapter[], issue: Issue | undefined, input: ComposeInput): BookBlock[] {
  if (issue === undefined) return [];
  const { guide: words, book } = wordsOf(input);
  const rows = toldSince(chapters, issue).map(({ chapter, kind, since, sections, gone }) => {
    const { title, number, anchor = '' } = chapter;
    const revision = since === undefined ? '' : ` ${(since === chapter.revision ? words.sinceSame : words.since).replace('{r}', since)}`;
    if (kind === 'dropped') return [text(number ?? title), text(words.dropped.replace('{title}', title))];
    const named: Inline[] = [{ kind: 'link', text: number ?? title, anchor, page: true }];
    const parts = number === undefined ? [words.changedHere] : sections.map((section) => section || book.atAGlance);
    if (gone.length > 0) parts.push(words.sectionsGone.replace('{titles}', gone.join(', ')));
    const said = kind === 'new' ? words.wholeNew : parts.join('; ') || words.unchanged;
    return [named, text(`${said}${parts.length === 0 ? '' : revision}`)];
  });
  return [
    { kind: 'heading', level: 2, text: words.changedTitle, bookmark: false },
    { kind: 'paragraph', inline: text(words.changedIntro) },
    { kind: 'table', head: words.changedHead.map(text), rows, align: ['left', 'left'], full: true },
  ];
}

/** One row a chapter, from its first page to its last: the layout gives both. */
export function pagesChapter(
  guide: IssueFacts,
  chapters: readonly Chapter[],
  after: readonly Chapter[],
  input: ComposeInput,
  startRight: boolean,
): Chapter {
  const words = wordsOf(input).guide;
  const own = { title: words.pagesTitle, anchor: 'pages' };
  const covers = [
    { title: words.cover, anchor: 'cover' },
    { title: words.backCover, anchor: 'back cover' },
  ] as const;
  const listed = [covers[0], ...chapters, own, ...after, covers[1]] as readonly Pick<
    Chapter,
    'title' | 'anchor' | 'number' | 'revision' | 'date'
  >[];
  const rows = listed.map(({ title, anchor = '', number: document, revision, date }) => [
    text(title),
    text(document ?? guide.id),
    text((document === undefined ? guide.revision : revision) ?? ''),
    text((document === undefined ? guide.date : date) ?? ''),
    [{ kind: 'link', text: '', anchor, page: true, bare: true, through: `${anchor} end` } as const],
  ]);
  return {
    ...own,
    startRight,
    blocks: [
      { kind: 'paragraph', style: 'lead', inline: text(words.pagesIntro) },
      { kind: 'table', head: words.pagesHead.map(text), rows, align: ['left', 'left', 'left', 'left', 'right'], full: true },
    ],
  };
}

export function askChapter(input: ComposeInput, startRight: boolean): Chapter {
  const { house } = input.library.registers;
  const words = wordsOf(input).guide;
  const blocks: BookBlock[] = [
    { kind: 'paragraph', style: 'lead', inline: text(words.askIntro) },
    { kind: 'bullets', items: house.assistance.map((line) => [{ kind: 'paragraph', inline: strong(line) }]) },
    { kind: 'paragraph', inline: text(words.askUrgent) },
    { kind: 'heading', level: 2, text: words.askHave, bookmark: false },
    ...words.askItems.map((label): BookBlock => ({ kind: 'write-in', label })),
  ];
  return { title: words.askTitle, anchor: 'ask', startRight, blocks };
}
