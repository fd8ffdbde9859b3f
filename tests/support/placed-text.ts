/** Placed and drawn pages as text: what a reader would find, block by block in the order of the structure, and where on the pages. */
import type { Book, BookBlock, Flow, IndexEntry, Inline, TaskReading, TasksBlock } from '../../publishing/book.ts';
import { type DrawnBook, type NodeId, numberPages, type PlacedBook, type Role } from '../../publishing/layout/index.ts';
import { printedWords } from '../../publishing/printed-words/index.ts';

/** Without what line breaking may add or drop: white space, soft hyphens, invisible steering characters; lone surrogates read alike. */
export const bare = (text: string): string =>
  text
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
    .normalize('NFC')
    .replace(/[\s\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff]/g, '');

export interface BlockText {
  readonly node: NodeId;
  readonly role: Role;
  readonly text: string;
  /** Pages it stands on, in order. */
  readonly pages: readonly number[];
}

/** Every block element with its text, links and words in another language joined into it, in the order the elements were made. Figures are left out: their words are the alternate text. */
export function blockTexts(drawn: DrawnBook): readonly BlockText[] {
  const { nodes } = drawn.structure;
  const out = new Map<NodeId, { node: NodeId; role: Role; text: string; pages: number[] }>();
  drawn.pages.forEach((page, index) => {
    let open: NodeId | undefined;
    for (const op of page.ops) {
      if (op.op === 'begin') {
        open = op.node;
        while (nodes[open]?.role === 'Link' || nodes[open]?.role === 'Span') open = nodes[open]?.parent as NodeId;
      } else if (op.op === 'end') open = undefined;
      else if (op.op === 'text' && open !== undefined) {
        const role = nodes[open]?.role as Role;
        if (role === 'Figure') continue;
        let block = out.get(open);
        if (block === undefined) {
          block = { node: open, role, text: '', pages: [] };
          out.set(open, block);
        }
        block.text += op.run.map(({ text }) => text).join('');
        if (block.pages[block.pages.length - 1] !== index) block.pages.push(index);
      }
    }
  });
  // Chapters stand in the order of their pages, whenever each was measured; inside a chapter elements are made in reading order.
  const rank = new Map<NodeId, number>();
  const chapterOf = (node: NodeId): number => {
    let top = node;
    while ((nodes[top]?.parent ?? -1) > 0) top = nodes[top]?.parent as NodeId;
    const known = rank.get(top) ?? rank.size;
    rank.set(top, known);
    return known;
  };
  const ranked = [...out.values()].map((block) => ({ block, chapter: chapterOf(block.node) }));
  return ranked.sort((a, b) => a.chapter - b.chapter || a.block.node - b.block.node).map(({ block }) => block);
}

const opened = (list: readonly Inline[]): boolean => {
  let text = list.map((one) => one.text).join('');
  for (let less = text.replace(/\([^()]*\)/, ''); less !== text; less = text.replace(/\([^()]*\)/, '')) text = less;
  return text.includes('(');
};

/** The words a book must show, in order, page numbers filled in from the placed anchors. */
export function expectedText(placed: PlacedBook): string {
  const { book, chapters, kit } = placed;
  const numbers = numberPages(placed.pages, book);
  const page = (anchor: string): string => {
    const at = placed.anchors.get(anchor);
    return at === undefined ? '?' : (numbers[at]?.shown ?? '?');
  };
  const inline = (list: readonly Inline[]): string =>
    list
      .map((one, index) => {
        if (one.kind !== 'link' || !one.page) return one.text;
        if (one.near !== undefined && !kit.away(one.near, one.anchor)) return one.text;
        const through = one.through !== undefined && page(one.through) !== page(one.anchor) ? `\u2013${page(one.through)}` : '';
        // In round brackets that are open already the page follows a comma.
        if (!one.bare && /^\([^()]*\)$/.test(one.text)) return `${one.text.slice(0, -1)}${inside(one.anchor, '')})`;
        if (!one.bare && opened(list.slice(0, index))) return `${one.text}${inside(one.anchor, through)}`;
        return one.bare ? `${one.text}${page(one.anchor)}${through}` : `${one.text}${after(one.anchor, through)}`;
      })
      .join('');
  const words = printedWords(book.language).layout;
  const filledIn = (pattern: string, anchor: string, through: string): string => pattern.replace('{n}', `${page(anchor)}${through}`);
  const after = (anchor: string, through: string): string => filledIn(words.pageRef, anchor, through);
  const inside = (anchor: string, through: string): string => filledIn(words.pageInBrackets, anchor, through);
  const flow = (blocks: Flow): string => blocks.map(block).join('');
  const block = (one: BookBlock): string => {
    switch (one.kind) {
      case 'heading':
        return (one.number ?? '') + one.text;
      case 'paragraph':
        return inline(one.inline);
      case 'bullets':
        return one.items.map((item) => `•${flow(item)}`).join('');
      case 'step':
        return one.label + one.notices.map(block).join('') + flow(one.body);
      case 'notice':
        return one.panel + flow(one.body);
      case 'table':
        return [one.caption ?? '', ...one.head.map(inline), ...one.rows.flat().map(inline), flow(one.notes ?? [])].join('');
      case 'figure':
        return one.caption ?? '';
      case 'write-in':
        return one.label + (one.unit ?? '');
      case 'choice':
        return one.label + one.choices.join('');
      case 'contents':
        return kit.contents
          .filter(({ level }) => level <= (one.depth ?? 2))
          .map((entry) => `${entry.number ?? ''}${entry.text}${page(entry.anchor)}`)
          .join('');
      case 'index':
        return index(one.entries);
      case 'band-key':
        return Object.entries(kit.words.band)
          .map(([state, said]) => (one.states === undefined || one.states.some((shown) => shown === state) ? said : ''))
          .join('');
      case 'entries':
        return one.rows.flatMap((row) => row.map((cell) => cell.label + (cell.options ?? []).join(''))).join('');
      case 'tasks':
        return one.heading + one.items.map(item).join('');
      default:
        return '';
    }
  };
  const item = (one: TasksBlock['items'][number]): string =>
    one.kind === 'task' ? one.label + one.notices.map(block).join('') + inline(one.line) + one.readings.map(reading).join('') : block(one);
  const reading = ({ limits, boxes, unit, verdict }: TaskReading): string =>
    verdict === undefined
      ? limits.map(({ model, text }) => `${model ?? ''}${text}`).join('') + boxes.map((word) => word + unit).join('')
      : `${verdict.passes}:${verdict.pass}${verdict.fails}:${verdict.fail}`;
  /** Letters over their names, every page once behind each. */
  const index = (entries: readonly IndexEntry[]): string => {
    let letter = '';
    return entries
      .map(({ name, anchors }) => {
        const own = (Array.from(name)[0] ?? '').toUpperCase();
        const over = own === letter ? '' : own;
        letter = own;
        return `${over}${name}${[...new Set(anchors.map(page))].join(',')}`;
      })
      .join('');
  };
  const stamp = (chapter: Book['chapters'][number]): string =>
    [
      chapter.number ?? '',
      chapter.revision === undefined ? '' : words.revision.replace('{r}', chapter.revision),
      // A leaf can stand alone.
      book.short === undefined ? '' : (chapter.date ?? ''),
    ].join('');
  return bare(
    [
      flow(book.cover ?? []),
      ...chapters.map((chapter) => stamp(chapter) + (chapter.opener ? chapter.title : '') + flow(chapter.blocks)),
      flow(book.backCover ?? []),
    ].join(''),
  );
}
