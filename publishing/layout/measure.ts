/** Second stage: blocks to slabs with heights, gaps and break costs. Each kind of block has its file; this one only strings them together. */

import { never } from '../../procedures-schema/invariant.ts';
import type { BookBlock, ChangeMarks, Flow, NoticeBlock } from '../book.ts';
import { heightOf } from './break.ts';
import { barred, withGone } from './change-marks.ts';
import type { Kit } from './kit.ts';
import { measureChoice } from './measure-choice.ts';
import { measureCompactBandKey } from './measure-compact-key.ts';
import { measureCompactNotice } from './measure-compact-notice.ts';
import { measureContents } from './measure-contents.ts';
import { measureEntries } from './measure-entries.ts';
import { measureFigure } from './measure-figure.ts';
import { measureIndex } from './measure-index.ts';
import { measureNotice } from './measure-notice.ts';
import { measureRecall, recalledOver } from './measure-recall.ts';
import { measureSteps, type StepBlock } from './measure-step.ts';
import { measureTable } from './measure-table.ts';
import { measureTasks } from './measure-tasks.ts';
import {
  measureBandKey,
  measureBullets,
  measureHeading,
  measureParagraph,
  measureRule,
  measureSpace,
  measureWriteIn,
} from './measure-text.ts';
import type { Measured, Room, Slab } from './slab.ts';
import { costs } from './style.ts';

export type MeasureFlow = (blocks: Flow, room: Room, kit: Kit) => Slab[];

/** What guards the section that a flow is in: carried on where the flow goes on in pages of another shape. */
export interface Guarding {
  /** Under which heading each stands: a heading of the same level ends what it guards. */
  guards: readonly { readonly level: number; readonly notice: NoticeBlock }[];
  level: number;
}

export const nothingGuards = (): Guarding => ({ guards: [], level: 0 });

/** Gap and cost of the first slab are left to the caller. Page breaks are the caller's too (layout-book.ts cuts the flow there). */
export const measureFlow: MeasureFlow = (blocks, room, kit) => measureGuarded(blocks, room, kit, nothingGuards());

/** `guarding` is brought up to date. What guarded the flow before it stands again at its head: it begins a page. */
export function measureGuarded(blocks: Flow, room: Room, kit: Kit, guarding: Guarding): Slab[] {
  const out: Slab[] = [];
  let after = 0;
  let keep = 0;
  const append = (measured: Measured, first: boolean) => {
    const head = measured.slabs[0];
    if (head === undefined) return;
    if (!first) {
      head.gap = Math.max(head.gap, after, measured.before);
      head.cost = Math.max(head.cost, keep, room.cost);
    }
    out.push(...measured.slabs);
    after = measured.after;
    keep = measured.keepNext ?? 0;
  };
  const again = ({ level, notice }: Guarding['guards'][number]) => {
    const slab = measureRecall(notice, room, kit);
    return slab === undefined ? [] : [{ level, notice, slab }];
  };
  // What the first block is under, unless it is a heading that ends it.
  const [first] = blocks;
  if (first?.kind === 'heading') guarding.guards = guarding.guards.filter((one) => one.level < first.level);
  let recalls = guarding.guards.flatMap(again);
  const told = recalls.map(({ slab }) => slab);
  let { level } = guarding;
  for (let i = 0; i < blocks.length; i += 1) {
    const block = blocks[i] as BookBlock;
    if (block.kind === 'heading') {
      level = block.level;
      recalls = recalls.filter((one) => one.level < level);
    }
    const from = out.length;
    if (block.kind === 'step') {
      const warned = blocks[i - 1]?.kind === 'notice';
      const run: StepBlock[] = [];
      while (blocks[i]?.kind === 'step') {
        run.push(blocks[i] as StepBlock);
        i += 1;
      }
      i -= 1;
      append(measureSteps(run, warned, room, kit, measureFlow), out.length === 0);
    } else append(measuredWith(block, measureBlock(block, block.changed ? barred(room) : room, kit, blocks)), out.length === 0);
    recalledOver(
      out.slice(from),
      recalls.map(({ slab }) => slab),
      kit,
    );
    if (block.kind === 'notice') recalls = [...recalls, ...again({ level, notice: block })];
  }
  guarding.guards = recalls;
  guarding.level = level;
  const head = out[0];
  if (head === undefined || heightOf(told) + head.height > kit.pageHeight / 2) return out;
  for (const slab of out.slice(0, 1)) slab.cost = Math.max(slab.cost, told.length === 0 ? 0 : costs.heading);
  return [...told, ...out];
}

const measuredWith = (block: ChangeMarks, measured: Measured): Measured =>
  block.gone === undefined ? measured : { ...measured, slabs: withGone(measured.slabs, block.gone) };

/** Write-ins that stand right above and below this one. */
function runAround(block: Extract<BookBlock, { kind: 'write-in' }>, flow: Flow): readonly Extract<BookBlock, { kind: 'write-in' }>[] {
  const at = flow.indexOf(block);
  let [from, to] = [at, at + 1];
  while (flow[from - 1]?.kind === 'write-in') from -= 1;
  while (flow[to]?.kind === 'write-in') to += 1;
  return flow.slice(from, to).filter((one) => one.kind === 'write-in');
}

/** Tables that are one list with this one. */
function joinedWith(block: Extract<BookBlock, { kind: 'table' }>, flow: Flow): readonly Extract<BookBlock, { kind: 'table' }>[] {
  const joins = (at: number): boolean => {
    const one = flow[at];
    return one?.kind === 'table' && one.joins === true;
  };
  let [from, to] = [flow.indexOf(block), flow.indexOf(block) + 1];
  while (joins(from)) from -= 1;
  while (joins(to)) to += 1;
  return flow.slice(from, to).filter((one) => one.kind === 'table');
}

function measureBlock(block: Exclude<BookBlock, StepBlock>, room: Room, kit: Kit, flow: Flow): Measured {
  switch (block.kind) {
    case 'heading':
      return measureHeading(block, room, kit);
    case 'paragraph':
      return measureParagraph(block, room, kit);
    case 'bullets':
      return measureBullets(block, room, kit, measureFlow);
    case 'notice':
      return (
        (block.compact ? measureCompactNotice(block, room, kit, measureFlow) : undefined) ?? measureNotice(block, room, kit, measureFlow)
      );
    case 'tasks':
      return measureTasks(block, room, kit, measureFlow);
    case 'entries':
      return measureEntries(block, room, kit);
    case 'table':
      return measureTable(block, joinedWith(block, flow), room, kit, measureFlow);
    case 'figure':
      return measureFigure(block, room, kit);
    case 'rule':
      return measureRule(room, kit, block.strong);
    case 'write-in':
      return measureWriteIn(block, runAround(block, flow), room, kit);
    case 'choice':
      return measureChoice(block, room, kit);
    case 'contents':
      return measureContents(block.depth ?? 2, room, kit);
    case 'index':
      return measureIndex(block, room, kit);
    case 'band-key':
      return block.compact ? measureCompactBandKey(block.states, room, kit) : measureBandKey(room, kit);
    case 'space':
      return measureSpace(block, room, kit);
    case 'page-break':
      return { slabs: [], before: 0, after: 0, keepNext: costs.block };
    default:
      return never(block);
  }
}
