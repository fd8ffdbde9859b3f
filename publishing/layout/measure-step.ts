/** A run of steps: hanging labels, substeps, the energy band beside them, notices bonded to the step they guard. */
import type { BookBlock, NoticeBlock } from '../book.ts';
import { heightOf } from './break.ts';
import { barred, withGone } from './change-marks.ts';
import { type Kit, textWidth } from './kit.ts';
import type { MeasureFlow } from './measure.ts';
import { measureNotice, noticeHeadAgain } from './measure-notice.ts';
import { hangLabel } from './measure-text.ts';
import type { Decor, Measured, Room, Slab } from './slab.ts';
import type { NodeId } from './structure.ts';
import { costs } from './style.ts';
import { type Mp, pt } from './units.ts';

export type StepBlock = Extract<BookBlock, { kind: 'step' }>;

/** `warned`: a notice for all of them stands right above. */
export function measureSteps(steps: readonly StepBlock[], warned: boolean, room: Room, kit: Kit, flow: MeasureFlow): Measured {
  const { sheet } = kit;
  const shallow = Math.min(...steps.map((step) => step.depth));
  const depthOf = (step: StepBlock) => Math.min(step.depth - shallow, 4);
  const labelLook = (depth: number) => (depth === 0 && room.left < room.x ? sheet.label : sheet.subLabel);

  // One label column a depth, as wide as its widest label.
  const columns: Mp[] = [];
  for (const step of steps) {
    const depth = depthOf(step);
    for (let d = columns.length; d <= depth; d += 1) columns.push(pt(15));
    columns[depth] = Math.max(
      columns[depth] as Mp,
      Math.min(textWidth(step.label, labelLook(depth), kit) + pt(7), Math.round(room.width / 5)),
    );
  }
  const banded = steps.some((step) => step.band !== undefined);
  const bandRoom = banded ? sheet.band + sheet.bandGap : 0;
  const lefts: Mp[] = [];
  const texts: Mp[] = [];
  columns.forEach((column, depth) => {
    const left = depth === 0 ? room.left + bandRoom : (texts[depth - 1] as Mp);
    lefts.push(left);
    texts.push(depth === 0 ? Math.max(left + column, room.x) : left + column);
  });

  const lists: NodeId[] = [];
  const bodies: NodeId[] = [];
  const slabs: Slab[] = [];
  let bandDecor: Extract<Decor, { kind: 'band' }> | undefined;
  let turnCost: number = 0;
  let previousDepth = 0;
  steps.forEach((step, index) => {
    const depth = depthOf(step);
    lists.length = Math.min(lists.length, depth + 1);
    bodies.length = Math.min(bodies.length, depth);
    while (lists.length <= depth) {
      const parent = lists.length === 0 ? room.node : (bodies[lists.length - 1] ?? room.node);
      lists.push(kit.structure.add(parent, 'L', { numbering: 'Decimal' }));
      // A substep without a step above it still needs a list item to stand in.
      if (lists.length <= depth)
        bodies[lists.length - 1] = kit.structure.add(kit.structure.add(lists[lists.length - 1] as NodeId, 'LI'), 'LBody');
    }
    const li = kit.structure.add(lists[depth] as NodeId, 'LI');
    const lbl = kit.structure.add(li, 'Lbl');
    const body = kit.structure.add(li, 'LBody');
    bodies[depth] = body;
    if (step.band === undefined) bandDecor = undefined;
    else if (bandDecor?.state !== step.band) bandDecor = { kind: 'band', x: room.left, width: sheet.band, state: step.band };
    const around: readonly Decor[] = step.changed ? [...room.decor, { kind: 'change' }] : room.decor;
    const decor = bandDecor === undefined ? around : [...around, bandDecor];
    const x = texts[depth] as Mp;
    const width = room.x + room.width - x;
    const inside: Room = { left: x, x, width, node: body, cost: Math.max(room.cost, costs.insideStep), decor };

    const guards: Slab[] = [];
    for (const notice of step.notices) {
      const made = measureNotice(notice, notice.changed ? barred(inside) : inside, kit, flow).slabs;
      const slabs = notice.gone === undefined ? made : withGone(made, notice.gone);
      const head = slabs[0] as Slab;
      if (guards.length > 0) {
        head.gap = sheet.between;
        head.cost = costs.notice * 2;
      }
      guards.push(...slabs);
    }
    const content = flow(step.body, inside, kit);
    const labelled = hangLabel(content, step.label, labelLook(depth), lefts[depth] as Mp, lbl, { ...inside, x }, kit);
    const head = labelled[0] as Slab;
    const tall = heightOf(labelled);
    if (tall <= kit.pageHeight / 2)
      for (const slab of labelled.slice(1)) {
        slab.cost = Math.max(slab.cost, tall <= kit.pageHeight / 3 ? costs.insideShortStep : costs.insideHalfPageStep);
        slab.turn = Math.max(slab.turn ?? 0, costs.afterUnsafe);
      }
    // A figure is looked at while the words above it are done.
    const figure = labelled.findIndex(({ of }) => of === 'figure');
    for (const slab of labelled.slice(1, figure + 1)) slab.cost = Math.max(slab.cost, costs.insideShortStep);
    // What a step is about, and nothing of what is done: in a long step lines of its lead have no space between them.
    const led = labelled.find(({ gap }, at) => at > 0 && gap > 0);
    if (led !== undefined) led.cost = Math.max(led.cost, costs.loneStep);
    const group = `step ${step.label} and its notices`;
    if (guards.length > 0) {
      head.gap = sheet.between + pt(2);
      head.cost = costs.notice * 2;
      head.group = group;
      for (const slab of guards) slab.group = group;
      guardRest(labelled, group, noticeHeadAgain(gravest(step.notices), step.anchor, inside, kit), kit.pageHeight);
    }
    const all = step.gone === undefined ? [...guards, ...labelled] : withGone([...guards, ...labelled], step.gone);
    const first = all[0] as Slab;
    if (step.anchor !== undefined) first.anchors = [...(first.anchors ?? []), step.anchor];
    if (index > 0) {
      first.gap = guards.length > 0 ? sheet.around : Math.round(sheet.between * (depth === 0 ? 1.15 : 0.7));
      const nested = depth > 0 ? costs.betweenSubsteps : 0;
      const keepFirstSub = depth > previousDepth ? costs.insideStep : 0;
      const edge = steps.length > 2 && (index === 1 || index === steps.length - 1) ? costs.loneStep : 0;
      const lone = warned && index === 1 ? costs.loneUnderNotice : edge;
      first.cost = Math.max(room.cost, costs.betweenSteps, nested, keepFirstSub, lone);
      const proving = steps[index - 1]?.band === 'cut' && (step.band === 'cut' || step.earths === true);
      if (turnCost > 0) first.turn = proving ? Math.max(turnCost, costs.insideProof) : turnCost;
    }
    slabs.push(...all);
    turnCost = step.safeAfter === true ? costs.afterSafe : step.safeAfter === false ? costs.afterUnsafe : costs.afterUnsaid;
    previousDepth = depth;
  });
  if (heightOf(slabs) <= kit.pageHeight / 3) for (const slab of slabs.slice(1)) slab.cost = Math.max(slab.cost, costs.betweenShortRun);
  return { slabs, before: sheet.between, after: sheet.around };
}

/** From danger down. */
const gravity: readonly NoticeBlock['word'][] = ['danger', 'warning', 'caution', 'notice'];

const gravest = (notices: readonly NoticeBlock[]): NoticeBlock =>
  notices.reduce((worst, one) => (gravity.indexOf(one.word) < gravity.indexOf(worst.word) ? one : worst));

/** After its first line a guarded step is parted only where it is taller than a page; the head of its notice then stands again. */
function guardRest(slabs: readonly Slab[], group: string, head: Slab, pageHeight: Mp): void {
  for (const slab of slabs.slice(1)) {
    if (slab.cost < costs.hard) {
      slab.cost += costs.guarded;
      slab.group = group;
    }
    const again = slab.resume ?? [];
    // Heads of steps around this one give way before they crowd the page.
    if (again.reduce((sum, one) => sum + one.height, head.height) <= pageHeight / 2) slab.resume = [head, ...again];
  }
}
