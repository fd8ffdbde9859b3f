/**
 * What was proved of the last state of a procedure, for the next one. Most keys change no action: a word of a remark, of a caution, of a sentence that is not
 * understood yet. Where the instructions say the same, only at other places in the text, no walk goes another way; the results are told of the new places.
 * Pure memory: with it and without it the same is proved.
 */
import type { LabelledStep } from '../numbering/index.ts';
import type { Found } from './causes.ts';
import type { Instruction, Program } from './code.ts';
import type { Band, FlowPlace } from './model.ts';
import type { Solved } from './solve.ts';

export class ProvedBefore {
  private program: Program | undefined;
  private solved = new Map<string, Solved>();

  /** `keys` say everything that a result hangs on besides the instructions. Of those known for the same instructions, the results in their new places. */
  recall(program: Program, keys: readonly string[]): ReadonlyMap<string, Solved> {
    const before = this.program;
    const out = new Map<string, Solved>();
    if (before === undefined || !keys.some((key) => this.solved.has(key)) || !saySame(before, program)) return out;
    const places = new Map<FlowPlace, FlowPlace>();
    const steps = new Map<LabelledStep, LabelledStep>();
    before.code.forEach((old, node) => {
      const now = program.code[node] as Instruction;
      places.set(old.place, now.place);
      if (old.place.step && now.place.step) steps.set(old.place.step, now.place.step);
      if (old.op === 'step' && now.op === 'step') steps.set(old.at, now.at);
    });
    for (const key of keys) {
      const known = this.solved.get(key);
      const moved = known && movedTo(known, places, steps);
      if (moved) out.set(key, moved);
    }
    return out;
  }

  keep(program: Program, solved: ReadonlyMap<string, Solved>): void {
    this.program = program;
    this.solved = new Map(solved);
  }
}

/** undefined where something is told of a place that no instruction has. */
function movedTo(
  solved: Solved,
  places: ReadonlyMap<FlowPlace, FlowPlace>,
  steps: ReadonlyMap<LabelledStep, LabelledStep>,
): Solved | undefined {
  let lost = false;
  const place = (old: FlowPlace): FlowPlace => {
    const now = places.get(old);
    lost ||= now === undefined;
    return now ?? old;
  };
  const band = (old: ReadonlyMap<LabelledStep, Band>): ReadonlyMap<LabelledStep, Band> =>
    new Map(
      [...old].map(([step, state]) => {
        const now = steps.get(step);
        lost ||= now === undefined;
        return [now ?? step, state] as const;
      }),
    );
  const found = solved.found.map(
    (one): Found => ({
      ...one,
      at: place(one.at),
      cause: one.cause && place(one.cause),
      walk: one.walk.map((point) => ({ ...point, place: place(point.place) })),
    }),
  );
  const moved = { ...solved, found, bands: band(solved.bands), during: band(solved.during) };
  return lost ? undefined : moved;
}

/** Whether every walk through the one is a walk through the other, step by step. Where a word stands does not count; what it says does. */
export function saySame(a: Program, b: Program): boolean {
  return (
    a.entry === b.entry &&
    a.visit === b.visit &&
    a.cut === b.cut &&
    a.code.length === b.code.length &&
    a.steps.length === b.steps.length &&
    a.code.every((one, node) => sameInstruction(one, b.code[node] as Instruction))
  );
}

function sameInstruction(a: Instruction, b: Instruction): boolean {
  if (a === b) return true;
  if (a.op !== b.op || !samePlace(a.place, b.place)) return false;
  if (a.op === 'step' && b.op === 'step') return a.next === b.next && sameStep(a.at, b.at);
  return same(a, b, true);
}

const samePlace = (a: FlowPlace, b: FlowPlace): boolean =>
  a === b || (a.file === b.file && (a.step === undefined ? b.step === undefined : b.step !== undefined && sameStep(a.step, b.step)));

const sameStep = (a: LabelledStep, b: LabelledStep): boolean =>
  a === b || (a.order === b.order && a.fullLabel === b.fullLabel && a.section.title === b.section.title);

/** Plain data, but for offsets into the text: numbers called `at` and `end`. `outer`: an instruction, whose place is looked at apart. */
function same(a: unknown, b: unknown, outer = false): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((one, index) => same(one, b[index]));
  const [own, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const keys = Object.keys(own);
  if (keys.length !== Object.keys(other).length) return false;
  for (const key of keys) {
    if (outer && key === 'place') continue;
    const [x, y] = [own[key], other[key]];
    if ((key === 'at' || key === 'end') && typeof x === 'number' && typeof y === 'number') continue;
    if (!Object.hasOwn(other, key) || !same(x, y)) return false;
  }
  return true;
}
