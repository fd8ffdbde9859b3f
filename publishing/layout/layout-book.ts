/** A book to placed pages: the four stages in a row, repeated while page numbers in references need more room. Draws nothing. */

import { invariant } from '../../procedures-schema/invariant.ts';
import type { Book, BookBlock, Flow } from '../book.ts';
import { fill, languageOfWords, printedWords } from '../printed-words/index.ts';
import { onOnePage } from './cover-spaces.ts';
import type { Kit, LayoutNote } from './kit.ts';
import { ledIn } from './lead-in.ts';
import { inFewestSheets } from './least-type.ts';
import { newMarginWords } from './margin-words.ts';
import { type Guarding, measureFlow, measureGuarded, nothingGuards } from './measure.ts';
import { mustTurn } from './measure-table.ts';
import { keyOf, MeasuredMemory } from './measured-memory.ts';
import { type NormalBook, type NormalChapter, normalise } from './normalise.ts';
import { numberPages, type PageNumber } from './page-numbers.ts';
import { geometryOf, type Side } from './paper.ts';
import {
  type FilledPage,
  heightOf,
  type MeasuredChapter,
  type Placed,
  type PlacedPage,
  type PlacedSlab,
  placeAll,
  usedHeight,
} from './place.ts';
import { forgetNear, formsOf, type References, widen } from './references.ts';
import { languageFacts } from './runs.ts';
import { type Shaper, widthOfAll } from './shaped.ts';
import { shortSheet } from './short-sheet.ts';
import type { Slab } from './slab.ts';
import type { NodeId } from './structure.ts';
import { colours, costs, sheetOf } from './style.ts';
import { type Tab, tabsOf } from './tabs.ts';

export interface PlacedBook extends Omit<Placed, 'pages'> {
  readonly pages: readonly PlacedPage[];
  readonly book: Book;
  readonly kit: Kit;
  readonly chapters: readonly NormalChapter[];
  readonly tabs: readonly Tab[];
  /** Elements of the boxes in the head of each leaf; empty for a bound book. */
  readonly headNodes: readonly (readonly NodeId[])[];
}

/** References widen only, so a second pass nearly always settles; past this many the last is taken and said. */
const mostPasses = 4;

/** `given`: what was measured for an earlier state of the book, to be used again and brought up to date. */
export function layoutBook(book: Book, shaper: Shaper, given?: MeasuredMemory): PlacedBook {
  const memory = given ?? new MeasuredMemory();
  const normal = normalise(book);
  const asks = book.chapters.some(({ blocks }) => blocks.some(asksPages));
  const known = memory.references;
  // From pass to pass the chapters are the same; told by their words only where another state of the book may follow.
  const keys = given === undefined ? normal.chapters.map((_, index) => String(index)) : keysOf(normal);
  let fresh = given === undefined;
  for (let pass = 1; ; pass += 1) {
    const laid = layoutOnce(normal, keys, shaper, known, memory);
    if (!widen(known, laid, asks)) {
      if (fresh || !forgetNear(known, laid)) return laid;
      fresh = true;
      pass = 0;
      continue;
    }
    if (pass === mostPasses) {
      const note: LayoutNote = { kind: 'unsettled-pages', message: 'Page numbers in references still change after four passes.' };
      return { ...laid, notes: [...laid.notes, note] };
    }
  }
}

/** Equal chapters share a measure only where nothing tells them apart; a contents page depends on all the others. */
const keysOf = ({ chapters, contents }: NormalBook): readonly string[] => {
  const entries = keyOf('contents', contents);
  return chapters.map(
    (chapter, index) => keyOf(String(index), chapter) + (chapter.blocks.some(({ kind }) => kind === 'contents') ? entries : ''),
  );
};

const asksPages = (block: BookBlock): boolean =>
  block.kind === 'index' ||
  (block.kind === 'table' &&
    block.rows.some((row) => row.some((cell) => cell.some((one) => one.kind === 'link' && one.through !== undefined))));

function layoutOnce(normal: NormalBook, keys: readonly string[], shaper: Shaper, known: References, memory: MeasuredMemory): PlacedBook {
  const { book } = normal;
  const sheet = book.short === undefined ? sheetOf(book.paper, book.large) : shortSheet(book.paper);
  const { body } = geometryOf(book, 'right');
  memory.begin(
    [book.paper, book.binding, book.language, book.written ?? '', book.large === true, book.short !== undefined, book.title].join('|'),
  );
  const { structure, images } = memory;
  const kit: Kit = {
    book,
    sheet,
    shaper,
    structure,
    words: printedWords(book.language).layout,
    language: book.written ?? book.language,
    printed: languageOfWords(book.language),
    ...(book.spoken === undefined ? {} : { spoken: book.spoken }),
    // A copier drops blue before black.
    linkColour: book.short === undefined ? colours.link : colours.ink,
    contents: normal.contents,
    images,
    pageHeight: body.height,
    pageWidth: body.width,
    notes: [],
    pageBefore: (anchor) => known.before.get(anchor),
    reserve: (anchor, look) =>
      Math.max(...formsOf(known, anchor, guess).map((form) => widthOfAll(shaper.shape(look.face, form), look.size))),
    away: (near, anchor) => {
      const pair = `${near}\n${anchor}`;
      known.asked.set(pair, { near, anchor });
      return known.away.has(pair);
    },
  };
  // Digits of the pages so far, by the height of what was measured: most references lead to pages not far off.
  let pages = 0;
  let guess = '8';
  const measured: MeasuredChapter[] = [];
  const { cover, backCover } = book;
  if (cover !== undefined) measured.push(memory.measure(keyOf('cover', cover), kit, (own) => measureCover(cover, 'cover', 'right', own)));
  normal.chapters.forEach((chapter, index) => {
    const made = inFewestSheets(kit, (one, type) => memory.measure(`${keys[index]}${type}`, one, (own) => measureChapter(chapter, own)));
    // Measured for an equal chapter, placed as this one.
    measured.push(made.chapter === chapter ? made : { ...made, chapter });
    if (book.short !== undefined || (chapter.tab === undefined && chapter.number === undefined && pages === 0)) return;
    pages += made.stretches.reduce((sum, { slabs }) => sum + Math.ceil(heightOf(slabs) / body.height), 0);
    guess = '8'.repeat(String(pages + 1).length);
  });
  if (backCover !== undefined)
    measured.push(memory.measure(keyOf('back cover', backCover), kit, (own) => measureCover(backCover, 'back cover', 'left', own)));
  const placed = placeAll(ledIn(measured, kit), book);
  assertPages(placed.pages);
  const missing = shaper
    .missing()
    .map((character): LayoutNote => ({ kind: 'missing-glyph', message: `No font here has the character "${character}".`, character }));
  const nodeOf = new Map(measured.map(({ chapter, node }) => [chapter, node]));
  const headNodes = placed.pages.map(({ chapter }) =>
    chapter === undefined
      ? []
      : (book.short?.head ?? []).map(({ label }) => structure.add(nodeOf.get(chapter) ?? 0, 'Form', languageFacts(label, kit))),
  );
  const wordsOf = newMarginWords(kit);
  const numbers = numberPages(placed.pages, book);
  const said = placed.pages.map((page, index): PlacedPage => ({ ...page, words: wordsOf(page, numbers[index] as PageNumber) }));
  return {
    ...placed,
    pages: said,
    tabs: tabsOf(normal.chapters, kit),
    book,
    kit,
    chapters: normal.chapters,
    headNodes,
    notes: [...kit.notes, ...placed.notes, ...missing],
  };
}

/** The document is in the language it was asked for in; what stands in it is the text, with the printed words in it marked as what they are. */
const sectOf = (title: string, { language, book }: Kit): { title: string; language?: string } =>
  language === book.language ? { title } : { title, language };

function measureCover(flow: Flow, anchor: string, side: Side, kit: Kit): MeasuredChapter {
  const node = kit.structure.add(0, 'Sect', sectOf(kit.book.title, kit));
  const room = { left: 0, x: 0, width: kit.pageWidth, node, cost: 0, decor: [] };
  const slabs = onOnePage(measureFlow(flow, room, kit), kit.pageHeight);
  markEnds(slabs, slabs, anchor);
  return { chapter: undefined, node, stretches: [{ slabs, side }] };
}

/** A chapter's first and last page can be asked for by name: "cover" and "cover end". */
function markEnds(first: readonly Slab[] | undefined, last: readonly Slab[] | undefined, anchor: string): void {
  const head = first?.[0];
  const foot = last?.[last.length - 1];
  if (head !== undefined && !head.anchors?.includes(anchor)) head.anchors = [anchor, ...(head.anchors ?? [])];
  if (foot !== undefined) foot.anchors = [...(foot.anchors ?? []), `${anchor} end`];
}

/** On a page of its own, as wide as the paper is high. */
function measureTurned(flow: Flow, node: NodeId, kit: Kit, guarding: Guarding): Slab[] {
  const { body } = geometryOf(kit.book, 'right', true);
  const turned: Kit = { ...kit, pageWidth: body.width, pageHeight: body.height };
  return measureGuarded(flow, { left: 0, x: 0, width: body.width, node, cost: costs.block, decor: [] }, turned, guarding);
}

function measureChapter(chapter: NormalChapter, kit: Kit): MeasuredChapter {
  const node = kit.structure.add(0, 'Sect', sectOf(chapter.title, kit));
  const room = { left: 0, x: kit.sheet.hang, width: kit.pageWidth - kit.sheet.hang, node, cost: costs.block, decor: [] };
  const dated = kit.book.short === undefined ? '' : (chapter.date ?? '');
  const stamp = [chapter.number ?? '', chapter.revision === undefined ? '' : fill(kit.words.revision, { r: chapter.revision }), dated]
    .filter((text) => text !== '')
    .join('   ');
  const opener: Flow = [
    ...(stamp === '' ? [] : ([{ kind: 'paragraph', style: 'eyebrow', inline: [{ kind: 'text', text: stamp }] }] as const)),
    ...(chapter.opener ? ([{ kind: 'heading', level: 1, text: chapter.title, anchor: chapter.anchor, bookmark: true }] as const) : []),
  ];
  const stretches: { slabs: readonly Slab[]; side?: Side; turned?: boolean }[] = [];
  let flow: BookBlock[] = [...opener];
  let right = chapter.startRight;
  const guarding = nothingGuards();
  const push = (stretch: { slabs: readonly Slab[]; turned?: boolean }): void => {
    stretches.push({ ...stretch, ...(right ? { side: 'right' } : {}) });
    right = false;
  };
  const close = (): void => {
    const slabs = measureGuarded(flow, room, kit, guarding);
    if (slabs.length > 0) push({ slabs });
    flow = [];
  };
  for (const block of chapter.blocks) {
    if (block.kind === 'table' && mustTurn(block, room, kit)) {
      // Headings right above the table turn with it.
      let from = flow.length;
      while (from > 0 && flow[from - 1]?.kind === 'heading') from -= 1;
      const along = flow.slice(from);
      flow = flow.slice(0, from);
      close();
      push({ slabs: measureTurned([...along, block], node, kit, guarding), turned: true });
    } else if (block.kind === 'page-break') {
      close();
      right = block.to === 'right';
    } else flow.push(block);
  }
  close();
  markEnds(stretches[0]?.slabs, stretches[stretches.length - 1]?.slabs, chapter.anchor);
  return { chapter, node, stretches };
}

/** Nothing leaves the body but a single slab that is taller than it. */
export function assertPages(pages: readonly FilledPage[]): void {
  pages.forEach((page, index) => {
    const own = page.slabs.length;
    if (own > 1 && usedHeight(page) > page.geometry.body.height + 1) invariant(hasGiant(page), `page ${index + 1} is overfull`);
    for (let k = 1; k < own; k += 1) {
      const before = page.slabs[k - 1] as PlacedSlab;
      const after = page.slabs[k] as PlacedSlab;
      // The words are made only where they are needed: there are many slabs.
      if (after.y < before.y + before.slab.height) invariant(false, `page ${index + 1} overlaps`);
    }
  });
}

const hasGiant = (page: FilledPage): boolean => page.slabs.some(({ slab }) => slab.height > page.geometry.body.height / 2);
