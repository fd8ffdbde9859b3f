/** Headings, paragraphs, bullets, rules, write-in boxes, the band's key. Leaves breaking of lines to paragraph.ts. */
import type { BookBlock, Flow, Inline } from '../book.ts';
import { drawBand } from './band.ts';
import { writeBox } from './boxes.ts';
import { baselineIn, type Kit, linesIn, textSlabs, textWidth } from './kit.ts';
import type { MeasureFlow } from './measure.ts';
import { segment } from './ops.ts';
import { elementOf, languageFacts, wholeLanguage } from './runs.ts';
import type { Measured, Room, Slab, SlabItem } from './slab.ts';
import { bands, colours, costs, type TextLook } from './style.ts';
import { type Mp, mm, pt } from './units.ts';

type Of<K extends BookBlock['kind']> = Extract<BookBlock, { kind: K }>;

const plain = (text: string): Inline[] => [{ kind: 'text', text }];

/** `role`: its level in the structure, where that is not the one it looks like. */
export function measureHeading(block: Of<'heading'>, room: Room, kit: Kit, role: 1 | 2 | 3 | 4 = block.level): Measured {
  const look = kit.sheet.headings[block.level - 1] as TextLook;
  const node = kit.structure.add(room.node, `H${role}`, wholeLanguage(block.text, kit));
  const inline = [...(block.number === undefined ? [] : plain(`${block.number}\u2002`)), ...plain(block.text)];
  const full = room.x + room.width - room.left;
  const slabs = textSlabs(inline, look, { x: room.left, width: full, node, decor: room.decor, cost: room.cost, of: 'heading' }, kit);
  for (const slab of slabs.slice(1)) slab.cost = costs.heading;
  for (const slab of slabs) slab.group = `the heading "${block.text}" and what follows it`;
  const first = slabs[0];
  if (first !== undefined) {
    if (block.goesOn) first.cost = Math.max(first.cost, costs.goesOn);
    if (block.anchor !== undefined) first.anchors = [block.anchor];
    if (block.bookmark && block.anchor !== undefined)
      first.bookmark = { level: block.level, title: block.text, anchor: block.anchor, ...elementOf(node, kit) };
    if (block.level <= 2) first.section = block.level === 1 ? '' : block.text;
  }
  const [before, after] = kit.sheet.aroundHeadings[block.level - 1] as readonly [Mp, Mp];
  return { slabs, before, after, keepNext: costs.heading };
}

export function measureParagraph(block: Of<'paragraph'>, room: Room, kit: Kit): Measured {
  const { sheet } = kit;
  const style = block.style ?? 'body';
  const look: TextLook = style === 'center' ? { ...sheet.body, align: 'center' } : sheet[style];
  const node = kit.structure.add(room.node, 'P');
  const width = style === 'center' ? room.width : Math.min(room.width, sheet.measure);
  // Words of a cover, and the number over a title, stand at the edge where titles do.
  const x = style === 'title' || style === 'subtitle' || style === 'eyebrow' ? room.left : room.x;
  const set = (wide: Mp): Slab[] =>
    textSlabs(block.inline, look, { x, width: wide, node, decor: room.decor, cost: room.cost, of: 'text' }, kit);
  let slabs = set(width);
  // Lines are no longer than is read with ease; a word alone on the last one is worth a little more.
  if (width < room.width && slabs.length > 1 && lastOf(slabs) < look.size * 6) {
    const wide = set(Math.min(room.width, Math.round(width * 1.06)));
    if (wide.length < slabs.length) slabs = wide;
  }
  // Where the main line ends is said under its last step.
  if (style === 'sent' || style === 'ends') for (const slab of slabs) slab.cost = Math.max(slab.cost, costs.orphan);
  const last = block.inline[block.inline.length - 1];
  const leadsIn = last !== undefined && last.kind !== 'link' && last.text.trimEnd().endsWith(':');
  // Limits of several models are lines of one list.
  const around = style === 'limit' ? pt(1) : sheet.between;
  return { slabs, before: around, after: around, ...(leadsIn || style === 'limit' || style === 'sent' ? { keepNext: costs.orphan } : {}) };
}

const lastOf = (slabs: readonly Slab[]): Mp => {
  const item = slabs[slabs.length - 1]?.items[0];
  return item?.kind === 'line' ? item.line.width : 0;
};

/** Three things are taken in at a glance, and not over a page. */
const shortList = 3;

export function measureBullets(block: Of<'bullets'>, room: Room, kit: Kit, flow: MeasureFlow): Measured {
  const { sheet } = kit;
  const list = kit.structure.add(room.node, 'L', { numbering: 'Disc' });
  const indent = pt(13);
  const slabs: Slab[] = [];
  block.items.forEach((item, index) => {
    const li = kit.structure.add(list, 'LI');
    const lbl = kit.structure.add(li, 'Lbl');
    const body = kit.structure.add(li, 'LBody');
    const inner = flow(
      item,
      { ...room, left: room.x, x: room.x + indent, width: room.width - indent, node: body, cost: Math.max(room.cost, costs.bullet) },
      kit,
    );
    const withLabel = hangLabel(inner, '•', { ...sheet.body, colour: colours.quiet }, room.x + pt(1.5), lbl, room, kit);
    const head = withLabel[0] as Slab;
    if (index > 0) {
      head.gap = Math.max(head.gap, Math.round(sheet.between * 0.6));
      const nearEdge = block.items.length <= shortList || index === 1 || index === block.items.length - 1;
      head.cost = Math.max(head.cost, room.cost, nearEdge ? costs.bulletNearEdge : costs.bullet);
    }
    slabs.push(...withLabel);
  });
  return { slabs, before: sheet.between, after: sheet.between };
}

/** Puts a label on the first line of some slabs; an empty item still gets its label. */
export function hangLabel(inner: Slab[], text: string, look: TextLook, x: number, node: number, room: Room, kit: Kit): Slab[] {
  const first = inner[0];
  const line = linesIn(plain(text), look, node, room.x + room.width, kit)[0];
  const own = baselineIn(kit.sheet.body, kit);
  if (first === undefined) {
    const items: SlabItem[] = line === undefined ? [] : [{ kind: 'line', x, width: line.width, baseline: own, line, align: 'left' }];
    return [{ height: look.lead, items, gap: 0, cost: 0, decor: room.decor, of: 'text' }];
  }
  if (line === undefined) return inner;
  const firstLine = first.items.find((item) => item.kind === 'line');
  const baseline = firstLine?.kind === 'line' ? firstLine.baseline : Math.min(own, first.height);
  return [{ ...first, items: [{ kind: 'line', x, width: line.width, baseline, line, align: 'left' }, ...first.items] }, ...inner.slice(1)];
}

export function measureRule(room: Room, kit: Kit, strong?: true): Measured {
  const stroke = strong ? { colour: colours.ink, width: pt(2) } : { colour: colours.faint, width: pt(0.75) };
  const art: SlabItem = {
    kind: 'art',
    x: room.left,
    y: 0,
    ops: [{ op: 'path', path: segment(0, 0, room.x + room.width - room.left, 0), stroke }],
  };
  return {
    slabs: [{ height: pt(1), items: [art], gap: 0, cost: 0, decor: room.decor, of: 'other' }],
    before: kit.sheet.around,
    after: kit.sheet.around,
  };
}

export function measureSpace({ lines, fill }: Of<'space'>, room: Room, kit: Kit): Measured {
  const height = Math.min(Math.max(0, Math.round(lines * kit.sheet.body.lead)), Math.floor(kit.pageHeight / 2));
  const slab: Slab = { height, items: [], gap: 0, cost: 0, decor: room.decor, of: 'other', space: fill ? 'fill' : 'give' };
  return { slabs: [slab], before: 0, after: 0 };
}

/** A unit too wide to stand after the box in a narrow place goes with the label. */
function labelOf({ label, unit }: Of<'write-in'>, room: Room, kit: Kit): { readonly label: string; readonly unit: Mp } {
  if (unit === undefined) return { label, unit: 0 };
  const wide = textWidth(unit, kit.sheet.body, kit) + pt(5);
  return wide <= Math.round(room.width * 0.25) ? { label, unit: wide } : { label: `${label} ${unit}`, unit: 0 };
}

/** Label, then a box a gloved hand can fill, then the unit. `beside`: all write-ins of the same run. */
export function measureWriteIn(block: Of<'write-in'>, beside: readonly Of<'write-in'>[], room: Room, kit: Kit): Measured {
  const { sheet } = kit;
  const height = mm(9);
  const box = Math.min(mm(42), Math.round(room.width * 0.45));
  const { label, unit } = labelOf(block, room, kit);
  const node = kit.structure.add(room.node, 'P');
  const gap = pt(8);
  const labelWidth = room.width - box - unit - gap;
  const labels = linesIn(plain(label), sheet.body, node, labelWidth, kit);
  const widest = Math.max(0, ...labels.map((line) => line.width));
  // Boxes below each other stand on one edge.
  const all = beside.map((one) => {
    const own = labelOf(one, room, kit);
    return Math.min(room.width - box - own.unit - gap, textWidth(own.label, sheet.body, kit));
  });
  const boxX = room.x + Math.min(labelWidth, Math.max(widest, ...all, Math.round(room.width * 0.3))) + gap;
  const base = baselineIn(sheet.body, kit);
  const tall = Math.max(height, labels.length * sheet.body.lead);
  const top = Math.round((tall - labels.length * sheet.body.lead) / 2);
  const items: SlabItem[] = labels.map((line, index) => ({
    kind: 'line',
    x: room.x,
    width: labelWidth,
    baseline: top + base + index * sheet.body.lead,
    line,
    align: 'left',
  }));
  const says = [block.label, block.unit ?? ''].filter((part) => part !== '').join(', ');
  const field = { node: kit.structure.add(room.node, 'Form', languageFacts(block.label, kit)), name: block.field ?? block.label, says };
  items.push(writeBox({ x: boxX, y: Math.round((tall - height) / 2), width: box, height, words: 0 }, field));
  const unitLine = unit === 0 ? undefined : linesIn(plain(block.unit ?? ''), sheet.body, node, room.width, kit)[0];
  if (unitLine !== undefined) {
    items.push({
      kind: 'line',
      x: boxX + box + pt(5),
      width: unit - pt(5),
      baseline: Math.round((tall - sheet.body.lead) / 2) + base,
      line: unitLine,
      align: 'left',
    });
  }
  return { slabs: [{ height: tall, items, gap: 0, cost: 0, decor: room.decor, of: 'other' }], before: sheet.between, after: sheet.between };
}

export function measureBandKey(room: Room, kit: Kit): Measured {
  const { sheet } = kit;
  const states = Object.keys(bands) as (keyof typeof bands)[];
  const list = kit.structure.add(room.node, 'L', { numbering: 'None' });
  const slabs = states.map((state): Slab => {
    const node = kit.structure.add(kit.structure.add(kit.structure.add(list, 'LI'), 'LBody'), 'P');
    const height = sheet.body.lead + pt(4);
    const x = room.x + mm(9);
    const line = linesIn(plain(kit.words.band[state]), sheet.body, node, room.width - mm(9), kit)[0];
    const items: SlabItem[] = [{ kind: 'art', x: room.x, y: 0, ops: drawBand(0, 0, sheet.band, height - pt(3), state) }];
    if (line !== undefined) {
      items.push({ kind: 'line', x, width: room.width - mm(9), baseline: pt(0.5) + baselineIn(sheet.body, kit), line, align: 'left' });
    }
    return { height, items, gap: 0, cost: costs.orphan, decor: room.decor, of: 'other' };
  });
  return { slabs, before: sheet.between, after: sheet.around };
}

export const allText = (flow: Flow): boolean => flow.every((block) => block.kind === 'paragraph');
