/** Fifth stage: placed pages to drawing operations. Decides nothing: every place was settled before. */

import { fill } from '../printed-words/index.ts';
import { drawBand } from './band.ts';
import { drawFurniture, drawWatermark } from './furniture.ts';
import type { BitmapImage } from './images.ts';
import type { Kit, LayoutNote } from './kit.ts';
import type { PlacedBook } from './layout-book.ts';
import { drawLeafFurniture } from './leaf-furniture.ts';
import { moved, type Op, rectangle, roundedRectangle } from './ops.ts';
import { numberPages, type PageLabel, type PageNumber } from './page-numbers.ts';
import { chipPad, type Part } from './parts.ts';
import type { PlacedPage } from './place.ts';
import { widthOfAll } from './shaped.ts';
import type { Bookmark, Decor, SlabItem } from './slab.ts';
import type { NodeId, Structure, StructureNode } from './structure.ts';
import { colours } from './style.ts';
import { drawTab } from './tabs.ts';
import { type Mp, pt } from './units.ts';

export interface DrawnPage {
  readonly width: Mp;
  readonly height: Mp;
  readonly ops: readonly Op[];
}

/** A book whose pages are drawn one by one when asked for: nobody need hold them all. */
export interface Drawing {
  /** How many pages. */
  readonly count: number;
  page(index: number): DrawnPage;
  readonly structure: Structure;
  readonly bookmarks: readonly Bookmark[];
  readonly images: readonly BitmapImage[];
  /** How each page is called. */
  readonly labels: readonly PageLabel[];
  /** What was noted while laying out, and while drawing the pages asked for so far. */
  notes(): readonly LayoutNote[];
}

/** The same with every page drawn. */
export interface DrawnBook extends Omit<Drawing, 'count' | 'page' | 'notes'> {
  readonly pages: readonly DrawnPage[];
  readonly notes: readonly LayoutNote[];
}

/** Pure memory: the same slabs under the same head and foot, with the same pages in their references, are drawn once. */
const drawnBefore = new WeakMap<
  PlacedPage['slabs'],
  { readonly stamp: string; readonly answers: ReadonlyMap<string, string>; readonly page: DrawnPage }
>();

/** Everything that head, foot, tab and watermark of a page are made from. */
function stampOfPage(page: PlacedPage, number: PageNumber, tabs: readonly string[], { book }: Kit): string {
  const { chapter } = page;
  const { chapters: _, cover: __, backCover: ___, ...facts } = book;
  const own = chapter === undefined ? [] : [chapter.title, chapter.number, chapter.revision, chapter.date, chapter.tab];
  return JSON.stringify([number.shown, number.total, page.section, page.side, page.turned, page.blank, page.cover, own, tabs, facts]);
}

/** `keep`: pages are remembered for the next drawing of the same slabs. */
export function drawingOf(placed: PlacedBook, keep = false): Drawing {
  const { kit, pages } = placed;
  const { short } = kit.book;
  const numbers = numberPages(pages, kit.book);
  const dead = new Set<string>();
  const pageOf = (anchor: string): string => {
    const page = placed.anchors.get(anchor);
    if (page === undefined) dead.add(anchor);
    return page === undefined ? '?' : (numbers[page] as PageNumber).shown;
  };
  const known = (anchor: string): boolean => placed.anchors.has(anchor);
  const { tabs } = placed;
  const tabNames = tabs.map(({ name }) => name);
  const draw = (index: number, asked: (anchor: string) => string): DrawnPage => {
    const page = pages[index] as PlacedPage;
    const number = numbers[index] as PageNumber;
    const askedKnown = (anchor: string): boolean => {
      asked(anchor);
      return known(anchor);
    };
    const ops: Op[] = [...drawWatermark(page, kit)];
    ops.push(...drawTab(page, tabs, kit), ...drawDecor(page));
    ops.push(
      ...(short === undefined
        ? drawFurniture(page, number, kit)
        : drawLeafFurniture(page, number, short, placed.headNodes[index] ?? [], kit)),
    );
    const { body } = page.geometry;
    for (const { slab, y } of page.slabs) {
      if (slab.anchors !== undefined) for (const anchor of slab.anchors) ops.push({ op: 'target', name: anchor, y: body.y + y });
      for (const item of slab.items) drawItem(item, body.x, body.y + y, ops, kit, asked, askedKnown);
    }
    return { width: page.geometry.width, height: page.geometry.height, ops };
  };
  const kept = (index: number): DrawnPage => {
    const page = pages[index] as PlacedPage;
    const stamp = stampOfPage(page, numbers[index] as PageNumber, tabNames, kit);
    const before = drawnBefore.get(page.slabs);
    if (before !== undefined && before.stamp === stamp && [...before.answers].every(([anchor, said]) => pageOf(anchor) === said))
      return before.page;
    const answers = new Map<string, string>();
    const made = draw(index, (anchor) => {
      const said = pageOf(anchor);
      answers.set(anchor, said);
      return said;
    });
    if (page.slabs.length > 0) drawnBefore.set(page.slabs, { stamp, answers, page: made });
    return made;
  };
  return {
    count: pages.length,
    page: (index) => (keep && short === undefined ? kept(index) : draw(index, pageOf)),
    structure: kit.structure,
    bookmarks: pages.flatMap((page) => page.slabs.flatMap(({ slab }) => (slab.bookmark === undefined ? [] : [slab.bookmark]))),
    images: kit.images.images,
    labels: numbers.map(({ label }) => label),
    notes: () => [
      ...placed.notes,
      ...[...dead].sort().map((anchor): LayoutNote => ({ kind: 'dead-link', message: `Nothing printed here is called "${anchor}".` })),
    ],
  };
}

export function drawBook(placed: PlacedBook): DrawnBook {
  const { count, page, notes, ...rest } = drawingOf(placed, true);
  const pages = Array.from({ length: count }, (_, index) => page(index));
  return { ...rest, pages, notes: notes() };
}

const changeWidth = pt(2);
const changeGap = pt(9);
/** Across, where a bar stands upright. */
const goneWidth = pt(7);
const goneGap = pt(3);

/** Bands and frames: one stretch for neighbours that share them. */
function drawDecor(page: PlacedPage): Op[] {
  const { body } = page.geometry;
  const order: Decor[] = [];
  const extent = new Map<Decor, { top: Mp; foot: Mp }>();
  for (const { slab, y } of page.slabs)
    for (const decor of slab.decor) {
      const known = extent.get(decor);
      if (known === undefined) {
        order.push(decor);
        extent.set(decor, { top: y, foot: y + slab.height });
      } else known.foot = Math.max(known.foot, y + slab.height);
    }
  const ops: Op[] = [];
  for (const decor of order) {
    const { top, foot } = extent.get(decor) as { top: Mp; foot: Mp };
    if (decor.kind === 'band') ops.push(...drawBand(body.x + decor.x, body.y + top, decor.width, foot - top, decor.state));
    else if (decor.kind === 'change') {
      // At the outer edge, where the pages of a closed book show it.
      const x = page.side === 'left' && !page.turned ? body.x - changeGap - changeWidth : body.x + body.width + changeGap;
      ops.push({ op: 'path', path: rectangle(x, body.y + top, changeWidth, foot - top), fill: colours.ink });
    } else if (decor.kind === 'gone') {
      const x = page.side === 'left' && !page.turned ? body.x - changeGap - goneWidth : body.x + body.width + changeGap;
      const y = decor.at === 'head' ? top - goneGap : foot + goneGap - changeWidth;
      ops.push({ op: 'path', path: rectangle(x, body.y + y, goneWidth, changeWidth), fill: colours.ink });
    } else {
      const half = Math.round(decor.line / 2);
      const path = rectangle(body.x + decor.x + half, body.y + top + half, decor.width - 2 * half, foot - top - 2 * half);
      ops.push({ op: 'path', path, stroke: { colour: decor.edge, width: decor.line } });
    }
  }
  return ops.length === 0 ? [] : [{ op: 'artifact', type: 'Layout' }, ...ops, { op: 'end' }];
}

const opening = (node: NodeId | undefined): Op =>
  node === undefined || node < 0 ? { op: 'artifact', type: 'Layout' } : { op: 'begin', node };

function drawItem(
  item: SlabItem,
  dx: Mp,
  dy: Mp,
  ops: Op[],
  kit: Kit,
  pageOf: (anchor: string) => string,
  known: (anchor: string) => boolean,
): void {
  if (item.kind === 'art') {
    ops.push(opening(item.node));
    for (const op of item.ops) ops.push(moved(op, dx + item.x, dy + item.y));
    ops.push({ op: 'end' });
    return;
  }
  const { line } = item;
  const slack = item.width - line.width;
  let x = dx + item.x + (item.align === 'right' ? slack : item.align === 'center' ? Math.round(slack / 2) : 0);
  const y = dy + item.baseline;
  let open: NodeId | undefined;
  let link: { op: 'link'; x: Mp; y: Mp; width: Mp; height: Mp; to: string; node: NodeId; says: string } | undefined;
  // Most lines lead nowhere.
  let links: NonNullable<typeof link>[] | undefined;
  const { nodes } = kit.structure;
  for (const part of line.parts) {
    const node = part.node < 0 ? -1 : part.node;
    if (open !== node) {
      if (open !== undefined) ops.push({ op: 'end' });
      ops.push(opening(node));
      open = node;
    }
    addPart(part, x, y, ops, kit, pageOf);
    const to = part.kind === 'chip' ? undefined : part.to;
    if (to !== undefined && known(to) && node >= 0) {
      const size = part.look.size;
      const says = part.kind === 'text' ? part.shaped.map(({ text }) => text).join('') : part.kind === 'page' ? pageOf(part.anchor) : '';
      // Words of a link in another language are an element inside the one that leads somewhere.
      const inside = nodes[node] as StructureNode;
      const own = inside.role === 'Span' ? inside.parent : node;
      if (link?.to === to && link.node === own) {
        link.width = x + part.width - link.x;
        link.says += says;
      } else {
        link = { op: 'link', x, y: y - size, width: part.width, height: Math.round(size * 1.3), to, node: own, says };
        if (links === undefined) links = [link];
        else links.push(link);
      }
    } else link = undefined;
    x += part.width;
  }
  if (open !== undefined) ops.push({ op: 'end' });
  if (links === undefined) return;
  // The spaces of print are one to an ear; and a number alone says nothing.
  for (const one of links) {
    one.says = one.says.replace(/\s+/g, ' ');
    if (/^[\divxlcdm\u2013]+$/.test(one.says)) one.says = fill(kit.words.page, { n: one.says });
  }
  ops.push(...links);
}

function addPart(part: Part, x: Mp, y: Mp, ops: Op[], kit: Kit, pageOf: (anchor: string) => string): void {
  const { size, colour, face } = part.look;
  if (part.kind === 'page') {
    const run = kit.shaper.shape(face, pageOf(part.anchor));
    ops.push({ op: 'text', x: x + part.width - widthOfAll(run, size), y, size, colour, run });
    return;
  }
  if (part.kind === 'chip') {
    const height = Math.round(size * 1.32);
    const path = roundedRectangle(x, y - Math.round(size * 0.98), part.width, height, pt(3));
    ops.push({ op: 'path', path, fill: colours.wash, stroke: { colour: colours.quiet, width: pt(0.6) } });
    ops.push({ op: 'text', x: x + chipPad, y, size, colour, run: part.shaped });
    return;
  }
  const last = ops[ops.length - 1];
  if (last?.op === 'text' && last.size === size && last.colour === colour && last.y === y && last.turn === undefined) {
    // Its list may be shared: one of its own for what is put together.
    ops[ops.length - 1] = { ...last, run: [...last.run, ...part.shaped] };
    return;
  }
  ops.push({ op: 'text', x, y, size, colour, run: part.shaped });
}
