/** The limit where the value is read, and boxes for the value: before and after, or passed and failed. One slab below its step's row. */
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
  const height = made.height + pt(4);
  const rule = segment(0, 0, room.width, 0);
  const line: SlabItem = {
    kind: 'art',
    x: room.x,
    y: height,
    ops: [{ op: 'path', path: rule, stroke: { colour: colours.faint, width: pt(0.5) } }],
  };
  return { height, items: [...made.items, line], gap: 0, cost: 0, decor: room.decor, of: 'text' };
}

const heightOf = (limits: readonly (readonly Line[])[], lead: Mp): Mp =>
  limits.reduce((sum, lines) => sum + lines.length * lead + pt(1.5), 0);

/** Words of a limit want this much beside the boxes. */
const leastWords = mm(20);

interface Made {
  readonly height: Mp;
  readonly items: readonly SlabItem[];
}

function values(reading: TaskReading, task: Task, room: Room, kit: Kit): Made {
  const { sheet, structure } = kit;
  const small: TextLook = { ...sheet.furniture, face: 'bold', size: leafBoxes.label };
  const unit = reading.unit === '' ? 0 : textWidth(reading.unit, sheet.body, kit) + pt(4);
  const after = unit + pt(8);
  // On a narrow leaf boxes get narrower, and stand below the limit where beside it no words would fit.
  const box = Math.min(leafBoxes.value.width, Math.floor(room.width / Math.max(1, reading.boxes.length)) - after);
  const each = box + after;
  const boxes = each * reading.boxes.length;
  const tall = leafBoxes.cell;
  const items: SlabItem[] = [];
  const paragraph = structure.add(room.node, 'P');
  const limitsIn = (width: Mp): readonly (readonly Line[])[] =>
    reading.limits.map(({ model, text }) => {
      const chip = model === undefined ? [] : [{ kind: 'chip' as const, text: model }];
      const words = { kind: 'strong' as const, text: `${model === undefined ? '' : '\u2002'}${text}` };
      return linesIn([...chip, words], sheet.body, paragraph, width, kit);
    });
  const narrow = room.width - boxes - pt(4);
  const apart = limitsIn(room.width);
  const beside = narrow < leastWords ? undefined : limitsIn(narrow);
  const high = (limits: readonly (readonly Line[])[]): Mp => heightOf(limits, sheet.body.lead);
  // A limit in pieces beside its boxes is read worse than whole above them; and a small leaf has more when each of several has a line of its own.
  const below =
    beside === undefined || high(beside) > high(apart) + tall || (isSmall(kit) && high(apart) + tall < Math.max(tall, high(beside)));
  const wide = below ? room.width : narrow;
  let y = pt(1);
  for (const lines of below ? apart : beside) {
    for (const line of lines) {
      items.push({ kind: 'line', x: room.x, width: wide, baseline: y + baselineIn(sheet.body, kit), line, align: 'left' });
      y += sheet.body.lead;
    }
    y += pt(1.5);
  }
  const top = below ? y : 0;
  const height = Math.max(y, top + tall);
  let x = room.x + room.width - boxes + pt(8);
  for (const word of reading.boxes) {
    const node = structure.add(room.node, 'Form');
    const says = [reading.name, word, reading.unit].filter((part) => part !== '').join(', ');
    items.push(
      writeBox({ x, y: top, width: box, height: tall, words: pt(10) }, { node, name: `${task.field}, ${reading.name}, ${word}`, says }),
    );
    const label = linesIn([{ kind: 'text', text: word }], small, structure.add(room.node, 'P'), box, kit)[0];
    if (label !== undefined) items.push({ kind: 'line', x: x + pt(3), width: box, baseline: top + pt(9.2), line: label, align: 'left' });
    if (reading.unit !== '') {
      const line = linesIn([{ kind: 'text', text: reading.unit }], sheet.body, structure.add(room.node, 'P'), unit + pt(2), kit)[0];
      const baseline = top + tall - pt(8);
      if (line !== undefined) items.push({ kind: 'line', x: x + box + pt(4), width: unit - pt(4), baseline, line, align: 'left' });
    }
    x += each;
  }
  return { height, items };
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
