/** Lines to tick off: one heading, a row a step with its box, label and words; the heading stands again on every further page. Values: measure-reading.ts. */
import type { BandState, Inline, NoticeBlock, Task, TasksBlock } from '../book.ts';
import { fill } from '../printed-words/index.ts';
import { barred, withGone } from './change-marks.ts';
import { baselineIn, type Kit, linesIn, textWidth } from './kit.ts';
import type { MeasureFlow } from './measure.ts';
import { measureCompactNotice } from './measure-compact-notice.ts';
import { measureNotice } from './measure-notice.ts';
import { measureReading } from './measure-reading.ts';
import { rowWithReading } from './measure-reading-row.ts';
import { type RowNodes, rowSlab } from './measure-task-row.ts';
import { segment } from './ops.ts';
import { elementOf } from './runs.ts';
import { isSmall, leafBoxes } from './short-sheet.ts';
import type { Decor, Measured, Room, Slab, SlabItem } from './slab.ts';
import type { NodeId } from './structure.ts';
import { colours, costs, type TextLook } from './style.ts';
import { type Columns, columnsOf, type Place } from './task-columns.ts';
import { type Mp, pt } from './units.ts';

export function measureTasks(block: TasksBlock, room: Room, kit: Kit, flow: MeasureFlow): Measured {
  const { sheet, structure } = kit;
  const tasks = block.items.filter((item) => item.kind === 'task');
  const columns = columnsOf(tasks, room, kit);
  const headed = block.headingChanged ? barred(room) : room;
  const heading = { ...headingSlab(block, columns, structure.add(room.node, 'H2'), kit), decor: headed.decor };
  const again = headingSlab({ ...block, heading: fill(kit.words.continued, { title: block.heading }) }, columns, -1, kit);
  const slabs: Slab[] = [heading];
  const lists: NodeId[] = [];
  const bodies: NodeId[] = [];
  let band: Extract<Decor, { kind: 'band' }> | undefined;
  let before: BandState | undefined;
  let keep: number = costs.heading;
  // A few lines are done in one go.
  const inRows = tasks.length <= fewTasks ? costs.betweenSubsteps : costs.row;
  for (const item of block.items) {
    const own: Slab[] = [];
    if (item.kind === 'task') {
      while (lists.length > item.depth + 1) lists.pop();
      for (let depth = lists.length; depth <= item.depth; depth += 1)
        lists[depth] = structure.add(depth === 0 ? room.node : (bodies[depth - 1] ?? room.node), 'L', { numbering: 'Decimal' });
      const li = structure.add(lists[item.depth] as NodeId, 'LI');
      const label = structure.add(li, 'Lbl');
      const body = structure.add(li, 'LBody');
      bodies[item.depth] = body;
      if (item.band === undefined) band = item.depth === 0 && !item.remark ? undefined : band;
      else if (band?.state !== item.band) band = { kind: 'band', x: columns.band, width: sheet.band, state: item.band };
      const around = item.changed ? barred(room).decor : room.decor;
      const decor = band === undefined ? around : [...around, band];
      const proving = before === 'cut' && (band?.state === 'cut' || item.earths === true);
      before = band?.state;
      own.push(...taskSlabs(item, columns, { label, body }, { ...room, decor }, kit, flow));
      // Hands are in the machine while it is open: the leaf should not have to be turned there.
      const next = item.band === 'open' ? costs.betweenSubsteps * 2 : inRows;
      // One line alone at the foot or the head of a leaf is lost between two.
      const edge = block.items.indexOf(item) <= 1 || item === block.items[block.items.length - 1];
      // Of several conditions all must be in view, or the wrong one is taken.
      const choice = item.depth > 0 && item.label === '' && !item.remark;
      const below = choice ? costs.orphan : item.depth > 0 ? costs.betweenSubsteps : 0;
      (own[0] as Slab).cost = Math.max(keep, below, edge ? costs.insideStep : 0);
      if (proving) (own[0] as Slab).turn = costs.insideProof;
      keep = next;
    } else {
      lists.length = 0;
      const left = (columns.at[0] as { tick: Mp }).tick;
      // Its own marks are measured with it.
      own.push(...flow([item], { ...room, left, x: left, width: columns.right - left }, kit));
      (own[0] as Slab).cost = keep;
      (own[0] as Slab).gap = Math.max((own[0] as Slab).gap, pt(3));
      keep = item.kind === 'notice' ? costs.heading : costs.row;
    }
    for (const slab of own) slab.resume ??= [again];
    slabs.push(...(item.kind === 'task' && item.gone !== undefined ? withGone(own, item.gone) : own));
  }
  return { slabs, before: isSmall(kit) ? pt(6.5) : pt(11), after: sheet.around };
}

const fewTasks = 6;

function headingSlab(block: TasksBlock, columns: Columns, node: NodeId, kit: Kit): Slab {
  const { sheet } = kit;
  const look = sheet.headings[1];
  const room = columns.right - columns.band;
  const small: TextLook = { ...sheet.small, face: 'bold' };
  const initials = columns.end < columns.right ? kit.words.initials : '';
  const wide = room - (initials === '' ? 0 : leafBoxes.initialsColumn);
  const heading: Inline[] = [{ kind: 'text', text: block.heading }];
  const lines = linesIn(heading, look, node, wide, kit);
  const items: SlabItem[] = lines.map((line, index) => ({
    kind: 'line',
    x: columns.band,
    width: wide,
    baseline: baselineIn(look, kit) + index * look.lead,
    line,
    align: 'left',
  }));
  const put = (text: string, x: Mp, width: Mp, baseline = last): void => {
    const line = linesIn([{ kind: 'text', text }], small, -1, width, kit)[0];
    if (line !== undefined) items.push({ kind: 'line', x, width, baseline, line, align: 'left' });
  };
  const last = baselineIn(look, kit) + (lines.length - 1) * look.lead;
  const end = columns.band + (lines[lines.length - 1]?.width ?? 0) + pt(10);
  const aside = block.aside ?? '';
  // Beside the heading where there is room for all of it, else on a line of its own.
  const under = aside !== '' && textWidth(aside, small, kit) > columns.band + wide - end;
  const height = lines.length * look.lead + (under ? small.lead : 0) + pt(3.5);
  if (under) put(aside, columns.band, wide, lines.length * look.lead + baselineIn(small, kit));
  else if (aside !== '') put(aside, end, columns.band + wide - end);
  if (initials !== '') put(initials, columns.right - leafBoxes.initials.width, leafBoxes.initials.width);
  items.push({
    kind: 'art',
    x: columns.band,
    y: height - pt(1.2),
    ops: [{ op: 'path', path: segment(0, 0, room, 0), stroke: { colour: colours.ink, width: pt(1.2) } }],
  });
  const own = {
    anchors: [block.anchor],
    bookmark: { level: 2, title: block.heading, anchor: block.anchor, ...elementOf(node, kit) },
    section: block.heading,
  };
  return { height, items, gap: 0, cost: 0, decor: [], of: 'heading', ...(node < 0 ? {} : own) };
}

function taskSlabs(task: Task, columns: Columns, nodes: RowNodes, room: Room, kit: Kit, flow: MeasureFlow): Slab[] {
  const place = columns.at[task.depth] as Place;
  const left = place.tick;
  const inside: Room = { ...room, left, x: left, width: columns.right - left, node: nodes.body };
  const group = `step ${task.label} and its notices`;
  const slabs = task.notices.flatMap((notice) => noticeSlabs(notice, inside, kit, flow));
  slabs.forEach((slab, index) => {
    slab.cost = costs.notice * 2;
    slab.gap = index === 0 ? pt(4) : Math.max(slab.gap, pt(2));
  });
  const inRow = rowWithReading(task, columns, nodes, room, kit);
  const row = inRow ?? rowSlab(task, columns, nodes, room, kit, task.readings.length === 0);
  if (slabs.length > 0) {
    row.cost = costs.notice * 2;
    row.gap = pt(2);
  }
  slabs.push(row);
  for (const reading of inRow === undefined ? task.readings : task.readings.slice(1)) {
    const at: Room = {
      ...(reading.changed ? barred(room) : room),
      left: place.text,
      x: place.text,
      width: columns.right - place.text,
      node: nodes.body,
    };
    const slab = measureReading(reading, task, at, kit);
    slab.cost = costs.notice;
    slabs.push(slab);
  }
  for (const slab of slabs) slab.group = group;
  const first = slabs[0] as Slab;
  if (task.anchor !== undefined) first.anchors = [task.anchor];
  return slabs;
}

const withStrokes = ({ gone }: NoticeBlock, slabs: Slab[]): Slab[] => (gone === undefined ? slabs : withGone(slabs, gone));

const noticeSlabs = (notice: NoticeBlock, around: Room, kit: Kit, flow: MeasureFlow): Slab[] => {
  const room = notice.changed ? barred(around) : around;
  return withStrokes(notice, (measureCompactNotice(notice, room, kit, flow) ?? measureNotice(notice, room, kit, flow)).slabs);
};
