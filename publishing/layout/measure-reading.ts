/** The limit where the value is read, and boxes for the value: before and after, or passed and failed. One slab below its step's row, where it does not stand in it: measure-reading-row.ts. */
import type { Inline, Task, TaskReading } from '../book.ts';
import { tickBox, writeBox } from './boxes.ts';
import { baselineIn, type Kit, linesIn, textWidth } from './kit.ts';
import { segment } from './ops.ts';
import type { Line } from './parts.ts';
import { isSmall, leafBoxes } from './short-sheet.ts';
import type { Room, Slab, SlabItem } from './slab.ts';
import type { NodeId } from './structure.ts';
import { colours, type TextLook } from './style.ts';
import { type Mp, mm, pt } from './units.ts';

export function measureReading(reading: TaskReading, task: Task, room: Room, kit: Kit): Slab {
  const made = reading.verdict === undefined ? values(reading, task, room, kit) : verdict(reading, reading.verdict, task, room, kit);
  const height = made.height + (isSmall(kit) ? pt(2.5) : pt(4));
  const rule = segment(0, 0, room.width, 0);
  const line: SlabItem = {
    kind: 'art',
    x: room.x,
    y: height,
    ops: [{ op: 'path', path: rule, stroke: { colour: colours.faint, width: pt(0.5) } }],
  };
  return { height, items: [...made.items, line], gap: 0, cost: 0, decor: room.decor, of: 'text' };
}

/** Of limits below each other. */
export const heightOf = (limits: readonly (readonly Line[])[], lead: Mp): Mp =>
  limits.reduce((sum, lines) => sum + lines.length * lead + pt(1.5), 0);

/** Words of a limit want this much beside the boxes. */
const leastWords = mm(20);

interface Made {
  readonly height: Mp;
  readonly items: readonly SlabItem[];
}

export interface Boxes {
  readonly box: Mp;
  /** The unit and the gap behind each. */
  readonly after: Mp;
  readonly all: Mp;
  /** One below the other, with an edge between them. */
  readonly stacked?: true;
}

/** How high they stand. */
export const boxesHeight = (reading: TaskReading, { stacked }: Boxes): Mp => leafBoxes.cell * (stacked ? reading.boxes.length : 1);

/** The boxes of a value below each other, each as wide as one alone. */
export function stackedIn(reading: TaskReading, kit: Kit): Boxes {
  const after = unitRoom(reading, kit) + pt(8);
  return { box: leafBoxes.value.width, after, all: leafBoxes.value.width + after, stacked: true };
}

/** Boxes of a value no wider than `room` together. */
export function boxesIn(reading: TaskReading, room: Mp, kit: Kit): Boxes {
  const after = unitRoom(reading, kit) + pt(8);
  const box = Math.min(leafBoxes.value.width, Math.floor(room / Math.max(1, reading.boxes.length)) - after);
  return { box, after, all: (box + after) * reading.boxes.length };
}

const unitRoom = (reading: TaskReading, kit: Kit): Mp => (reading.unit === '' ? 0 : textWidth(reading.unit, kit.sheet.body, kit) + pt(4));

/** The lines of each limit, a model's name before its own. */
export const limitLines = (reading: TaskReading, width: Mp, node: NodeId, kit: Kit): readonly (readonly Line[])[] =>
  reading.limits.map(({ model, text }) => {
    const chip = model === undefined ? [] : [{ kind: 'chip' as const, text: model }];
    const words = { kind: 'strong' as const, text: `${model === undefined ? '' : '\u2002'}${text}` };
    return linesIn([...chip, words], kit.sheet.body, node, width, kit);
  });

export function limitItems(limits: readonly (readonly Line[])[], x: Mp, width: Mp, top: Mp, kit: Kit): readonly SlabItem[] {
  const look = kit.sheet.body;
  let y = top;
  return limits.flatMap((lines) => {
    const items = lines.map((line, index): SlabItem => {
      const baseline = y + index * look.lead + baselineIn(look, kit);
      return { kind: 'line', x, width, baseline, line, align: 'left' };
    });
    y += lines.length * look.lead + pt(1.5);
    return items;
  });
}

/** Ending at `right`, each with its word in it and its unit behind it. */
export function boxItems(reading: TaskReading, task: Task, boxes: Boxes, right: Mp, from: Mp, node: NodeId, kit: Kit): readonly SlabItem[] {
  const { sheet, structure } = kit;
  const small: TextLook = { ...sheet.furniture, face: 'bold', size: leafBoxes.label };
  const tall = leafBoxes.cell;
  const unit = unitRoom(reading, kit);
  const { box, after, all, stacked } = boxes;
  return reading.boxes.flatMap((word, index): SlabItem[] => {
    const x = right - all + pt(8) + (stacked ? 0 : index * (box + after));
    const top = from + (stacked ? index * tall : 0);
    const field = structure.add(node, 'Form');
    const says = [reading.name, word, reading.unit].filter((part) => part !== '').join(', ');
    const name = `${task.field}, ${reading.name}, ${word}`;
    const items = [writeBox({ x, y: top, width: box, height: tall, words: pt(10) }, { node: field, name, says })];
    const put = (text: string, look: TextLook, at: Mp, width: Mp, baseline: Mp): void => {
      // Measured whole before: a breath of room, so that it is not broken.
      const line = linesIn([{ kind: 'text', text }], look, structure.add(node, 'P'), width + pt(6), kit)[0];
      if (line !== undefined) items.push({ kind: 'line', x: at, width, baseline, line, align: 'left' });
    };
    put(word, small, x + pt(3), box - pt(3), top + pt(9.2));
    if (reading.unit !== '') put(reading.unit, sheet.body, x + box + pt(4), unit - pt(4), top + tall - pt(8));
    return items;
  });
}

function values(reading: TaskReading, task: Task, room: Room, kit: Kit): Made {
  const { sheet, structure } = kit;
  const tall = leafBoxes.cell;
  // On a narrow leaf boxes get narrower, and stand below the limit where beside it no words would fit.
  const boxes = boxesIn(reading, room.width, kit);
  const paragraph = structure.add(room.node, 'P');
  const limitsIn = (width: Mp): readonly (readonly Line[])[] => limitLines(reading, width, paragraph, kit);
  const narrow = room.width - boxes.all - pt(4);
  const apart = limitsIn(room.width);
  const beside = narrow < leastWords ? undefined : limitsIn(narrow);
  const high = (limits: readonly (readonly Line[])[]): Mp => heightOf(limits, sheet.body.lead);
  // A limit in pieces beside its boxes is read worse than whole above them; and a small leaf has more when each of several has a line of its own.
  const below =
    beside === undefined || high(beside) > high(apart) + tall || (isSmall(kit) && high(apart) + tall < Math.max(tall, high(beside)));
  const limits = below ? apart : beside;
  const y = pt(1) + high(limits);
  const top = below ? y : 0;
  const items = [
    ...limitItems(limits, room.x, below ? room.width : narrow, pt(1), kit),
    ...boxItems(reading, task, boxes, room.x + room.width, top, room.node, kit),
  ];
  return { height: Math.max(y, top + tall), items };
}

function verdict(reading: TaskReading, judged: NonNullable<TaskReading['verdict']>, task: Task, room: Room, kit: Kit): Made {
  const { sheet, structure } = kit;
  const gap = leafBoxes.tick + pt(5);
  const items: SlabItem[] = [];
  const inlineOf = (word: string, text: string): Inline[] => [
    { kind: 'strong', text: `${word}: ` },
    { kind: 'text', text },
  ];
  const answers = [inlineOf(judged.passes, judged.pass), inlineOf(judged.fails, judged.fail)];
  const across = Math.floor((room.width - pt(12)) / 2);
  const counts = (width: Mp): readonly number[] => answers.map((inline) => linesIn(inline, sheet.body, room.node, width - gap, kit).length);
  const high = (lines: number): Mp => Math.max(leafBoxes.tick, lines * sheet.body.lead);
  // Long answers on a small leaf: one below the other breaks them less.
  const stacked =
    isSmall(kit) && counts(room.width).reduce((sum, lines) => sum + high(lines) + pt(2), 0) < high(Math.max(...counts(across)));
  const half = stacked ? room.width : across;
  let height: Mp = leafBoxes.tick;
  const side = (word: string, inline: readonly Inline[], x: Mp, y: Mp): void => {
    const node: NodeId = structure.add(room.node, 'Form');
    items.push(tickBox(x, y, { node, name: `${task.field}, ${reading.name}, ${word}`, says: `${reading.name}: ${word}` }));
    const top = y + Math.round((leafBoxes.tick - sheet.body.lead) / 2);
    const lines = linesIn(inline, sheet.body, structure.add(room.node, 'P'), half - gap, kit);
    lines.forEach((line, index) => {
      const baseline = top + index * sheet.body.lead + baselineIn(sheet.body, kit);
      items.push({ kind: 'line', x: x + gap, width: half - gap, baseline, line, align: 'left' });
    });
    height = Math.max(height, y + leafBoxes.tick, top + lines.length * sheet.body.lead);
  };
  const [passes, fails] = answers as [Inline[], Inline[]];
  side(judged.passes, passes, room.x, 0);
  if (stacked) side(judged.fails, fails, room.x, height + pt(2));
  else side(judged.fails, fails, room.x + half + pt(12), 0);
  return { height, items };
}
