/** Tables: column widths from content, a head that stands again on every page, breaks between rows only (inside a row only when it fills a page). */
import type { BookBlock, Inline } from '../book.ts';
import { heightOf } from './break.ts';
import { captionDecor } from './change-marks.ts';
import { atLeast, type Extent, fillColumns, shareColumns } from './columns.ts';
import { asArtifact, baselineIn, type Kit, linesIn, textSlabs } from './kit.ts';
import type { MeasureFlow } from './measure.ts';
import { type Op, rectangle, segment } from './ops.ts';
import { extentOf, type Line } from './paragraph.ts';
import type { Measured, Room, Slab, SlabItem } from './slab.ts';
import { type NodeId, StructureBuilder } from './structure.ts';
import { colours, costs, type TextLook } from './style.ts';
import { type Mp, pt, share } from './units.ts';

type TableBlock = Extract<BookBlock, { kind: 'table' }>;
type Cells = readonly (readonly Inline[])[];

/** Of so many rows at least three stay together at either end. */
const longTable = 8;

/** `beside`: this table and those that are one list with it; their columns are the same where their widths are given. */
export function measureTable(block: TableBlock, beside: readonly TableBlock[], room: Room, kit: Kit, flow: MeasureFlow): Measured {
  const { sheet } = kit;
  const pad = sheet.cellPad;
  const scratch = new StructureBuilder();
  const extents = beside.map((one) => extentsOf(one, kit)).reduce(wider, extentsOf(block, kit));
  // A full table stands under its heading; one too wide for the text column may use the hanging margin as well.
  const need = extents.reduce((sum, column) => sum + column.most, 0);
  const x = block.wide || block.full || need > room.width ? room.left : room.x;
  const available = room.x + room.width - x;
  const widths =
    block.widths?.length === extents.length
      ? atLeast(
          block.widths.map((part) => share(available, part)),
          extents,
        )
      : block.full || block.writable
        ? fillColumns(shareColumns(extents, available), available)
        : shareColumns(extents, available);
  const total = widths.reduce((sum, width) => sum + width, 0);
  const node = kit.structure.add(room.node, 'Table');
  const slabs: Slab[] = [];

  if (block.caption !== undefined) {
    const caption = kit.structure.add(node, 'Caption');
    const look = { ...sheet.caption, face: 'bold' as const, colour: colours.ink };
    const text: Inline[] = [{ kind: 'text', text: block.caption }];
    const lines = textSlabs(
      text,
      look,
      { x, width: available, node: caption, decor: captionDecor(block, room), cost: costs.heading, of: 'table' },
      kit,
    );
    for (const slab of lines.slice(1)) slab.cost = costs.heading;
    slabs.push(...lines);
  }

  const rowSlabs = (cells: Cells, look: TextLook, kind: 'head' | 'body' | 'again', parent: NodeId, last: boolean): Slab[] => {
    const row = kind === 'again' ? -1 : kit.structure.add(parent, 'TR');
    const columns: readonly (readonly Line[])[] = widths.map((width, column) => {
      const role = kind === 'head' ? ('TH' as const) : ('TD' as const);
      const cell = kind === 'again' ? -1 : kit.structure.add(row, role, kind === 'head' ? { scope: 'Column' } : {});
      const inline = cells[column] ?? [];
      const own = kind === 'again' ? { ...kit, structure: scratch } : kit;
      const lines = entriesOf(inline).flatMap((entry) => linesIn(entry, look, Math.max(0, cell), width - 2 * pad, own));
      return kind === 'again' ? lines.map(asArtifact) : lines;
    });
    const tall = Math.max(1, ...columns.map((lines) => lines.length));
    const top = pt(4);
    const foot = block.writable && kind === 'body' ? pt(16) : pt(4);
    const whole = top + tall * look.lead + foot;
    const baseline = baselineIn(look, kit);
    const pieces =
      whole <= Math.floor(kit.pageHeight / 2)
        ? [[0, tall] as const]
        : Array.from({ length: tall }, (_, index) => [index, index + 1] as const);
    return pieces.map(([from, to]): Slab => {
      const above = from === 0 ? top : 0;
      const below = to === tall ? foot : 0;
      const height = above + (to - from) * look.lead + below;
      const items: SlabItem[] = [];
      const ops: Op[] = [];
      if (kind !== 'body') ops.push({ op: 'path', path: rectangle(0, 0, total, height), fill: colours.wash });
      if (kind !== 'body' && from === 0)
        ops.push({ op: 'path', path: segment(0, 0, total, 0), stroke: { colour: colours.ink, width: pt(1) } });
      if (to === tall) {
        const strong = kind !== 'body' || last;
        const stroke = strong ? { colour: colours.ink, width: pt(kind === 'body' ? 1 : 0.6) } : { colour: colours.faint, width: pt(0.6) };
        ops.push({ op: 'path', path: segment(0, height, total, height), stroke });
      }
      if (block.writable && kind === 'body') ops.push(...uprights(widths, height));
      items.push({ kind: 'art', x, y: 0, ops });
      let at: Mp = x;
      widths.forEach((width, column) => {
        const align = block.align[column] ?? 'left';
        (columns[column] as readonly Line[]).slice(from, to).forEach((line, index) => {
          items.push({ kind: 'line', x: at + pad, width: width - 2 * pad, baseline: above + index * look.lead + baseline, line, align });
        });
        at += width;
      });
      return {
        height,
        items,
        gap: 0,
        cost: from === 0 ? 0 : costs.rowInside,
        decor:
          kind === 'body' && cells.some((cell) => cell.some(({ changed }) => changed)) ? [...room.decor, { kind: 'change' }] : room.decor,
        of: kind === 'body' ? 'table' : 'table-head',
      };
    });
  };

  const hasHead = block.head.some((cell) => cell.length > 0);
  if (hasHead) {
    const head = rowSlabs(block.head, sheet.cellHead, 'head', kit.structure.add(node, 'THead'), false);
    (head[0] as Slab).gap = slabs.length > 0 ? pt(4) : 0;
    for (const slab of head) slab.cost = costs.heading;
    slabs.push(...head);
  }
  const again = hasHead ? rowSlabs(block.head, sheet.cellHead, 'again', -1, false) : undefined;
  const againHeight = again?.reduce((sum, slab) => sum + slab.height, 0) ?? 0;
  const body = block.rows.length > 0 ? kit.structure.add(node, 'TBody') : node;
  block.rows.forEach((row, index) => {
    const made = rowSlabs(row, sheet.cell, 'body', body, index === block.rows.length - 1);
    const first = made[0] as Slab;
    const edge = block.rows.length >= longTable ? 2 : 1;
    const nearEdge = index <= edge || index >= block.rows.length - edge;
    first.cost =
      index === 0
        ? hasHead
          ? costs.heading
          : costs.orphan
        : Math.max(room.cost, block.whole ? costs.orphan : nearEdge ? costs.rowNearEdge : costs.row);
    if (index === 0 && !hasHead && slabs.length > 0) first.gap = pt(4);
    for (const slab of made) {
      slab.group = 'a table row';
      // A head that fills half a page is not repeated: nothing would fit under it.
      if (again !== undefined && againHeight <= kit.pageHeight / 3) slab.resume = again;
    }
    slabs.push(...made);
  });
  // What fits is not taken apart; a part of a longer list, looked at thing by thing, sooner than a third of a page is left empty for it.
  if (heightOf(slabs) <= kit.pageHeight / (beside.length > 1 ? 4 : 3))
    for (const slab of slabs.slice(1)) slab.cost = Math.max(slab.cost, costs.insideShortStep);
  if (block.notes !== undefined && block.notes.length > 0) {
    const notes = flow(block.notes.map(smaller), { ...room, left: x, x, width: available }, kit);
    notes.forEach((slab, index) => {
      if (index === 0) slab.gap = pt(5);
      slab.cost = costs.heading;
      slab.group = 'a table and its notes';
    });
    slabs.push(...notes);
  }
  const first = slabs[0];
  if (first !== undefined) {
    first.cost = block.joins ? costs.betweenParts : 0;
    if (block.anchor !== undefined) first.anchors = [block.anchor];
  }
  return { slabs, before: sheet.around, after: sheet.around };
}

/** A cell's entries, each on lines of its own: they are parted by U+2028, the line separator. */
function entriesOf(cell: readonly Inline[]): readonly (readonly Inline[])[] {
  if (!cell.some(({ text }) => text.includes('\u2028'))) return [cell];
  const entries: Inline[][] = [[]];
  for (const one of cell)
    one.text.split('\u2028').forEach((text, index) => {
      if (index > 0) entries.push([]);
      if (text !== '') (entries[entries.length - 1] as Inline[]).push({ ...one, text });
    });
  return entries;
}

/** The extents last asked for, by table: whether it turns is asked right before it is measured. Holds while the same questions get the same answers. */
const lastExtents = new WeakMap<
  TableBlock,
  { readonly reserve: Kit['reserve']; readonly sheet: Kit['sheet']; readonly extents: readonly Extent[] }
>();

/** Least and natural width of each column, padding included. */
function extentsOf(block: TableBlock, kit: Kit): readonly Extent[] {
  const last = lastExtents.get(block);
  if (last !== undefined && last.reserve === kit.reserve && last.sheet === kit.sheet) return last.extents;
  const extents = measureExtents(block, kit);
  lastExtents.set(block, { reserve: kit.reserve, sheet: kit.sheet, extents });
  return extents;
}

function measureExtents(block: TableBlock, kit: Kit): readonly Extent[] {
  const { sheet } = kit;
  const count = Math.max(block.head.length, ...block.rows.map((row) => row.length), 1);
  const scratch = new StructureBuilder();
  return Array.from({ length: count }, (_, column) => {
    let least = pt(14);
    let most = pt(14);
    const see = (cells: Cells, look: TextLook) => {
      const cell = cells[column];
      if (cell === undefined || cell.length === 0) return;
      for (const entry of entriesOf(cell)) {
        const extent = extentOf(entry, look, kit, scratch);
        least = Math.max(least, extent.least);
        most = Math.max(most, extent.most);
      }
    };
    see(block.head, sheet.cellHead);
    for (const row of block.rows) see(row, sheet.cell);
    return { least: least + 2 * sheet.cellPad, most: most + 2 * sheet.cellPad };
  });
}

/** What two tables need of columns that they share. */
const wider = (one: readonly Extent[], other: readonly Extent[]): readonly Extent[] =>
  one.length === other.length
    ? one.map(({ least, most }, column) => ({
        least: Math.max(least, (other[column] as Extent).least),
        most: Math.max(most, (other[column] as Extent).most),
      }))
    : one;

/** Without measuring: no letter is wider than its type size. */
function surelyFits(block: TableBlock, columns: number, available: Mp, kit: Kit): boolean {
  let least = 0;
  for (let column = 0; column < columns; column += 1) {
    let longest = 1;
    for (const row of [block.head, ...block.rows])
      for (const { text } of row[column] ?? [])
        for (let at = 0, next = 0; at <= text.length; at = next + 1) {
          next = text.indexOf(' ', at);
          if (next < 0) next = text.length;
          longest = Math.max(longest, next - at);
        }
    // Values hold on to their units and links to their pages: two words, and a page number of some digits.
    least += (2 * longest + 8) * kit.sheet.cell.size + 2 * kit.sheet.cellPad;
  }
  return least <= available;
}

/** Whether a table has to stand on a landscape page: upright its words would be cut, or its many columns be slivers. */
export function mustTurn(block: TableBlock, room: Room, kit: Kit): boolean {
  const columns = Math.max(block.head.length, ...block.rows.map((row) => row.length));
  const available = room.x + room.width - room.left;
  if (columns < 3 || (columns < 6 && surelyFits(block, columns, available, kit))) return false;
  const extents = extentsOf(block, kit);
  const least = extents.reduce((sum, column) => sum + column.least, 0);
  if (least > available) return true;
  // As many lines a row as this would make: a table nobody can follow across.
  const widths = shareColumns(extents, available);
  return extents.length >= 6 && extents.some(({ most }, index) => most > 5 * (widths[index] as Mp));
}

/** Lines between the columns, where something is written in. */
function uprights(widths: readonly Mp[], height: Mp): Op[] {
  const ops: Op[] = [];
  let at = 0;
  for (const width of widths.slice(0, -1)) {
    at += width;
    ops.push({ op: 'path', path: segment(at, 0, at, height), stroke: { colour: colours.quiet, width: pt(0.6) } });
  }
  return ops;
}

const smaller = (block: BookBlock): BookBlock =>
  block.kind === 'paragraph' && block.style === undefined ? { ...block, style: 'small' } : block;
