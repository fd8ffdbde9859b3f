/**
 * The search with as few states as it needs. Facts start unremembered, free each time they are asked, and one that a walk answered in
 * two ways is remembered and all is searched again: what is left is what a search that remembers all would say. Where the state as a
 * whole is still too large, it is cut in slices, and in each also outcomes are remembered only where it must. semantics.md 22.
 * The walking is solve.ts.
 */
import { worstOf } from './band.ts';
import { answerKey } from './causes.ts';
import type { Instruction, Program } from './code.ts';
import { keeping } from './forget.ts';
import { type Slice, slicesOf, wholeSlice } from './slices.ts';
import { BOUND, type Solved, type SolveInput, solve } from './solve.ts';
import type { Layout } from './state.ts';

/** States met as a whole before the walk is cut in slices; most procedures meet some hundreds. */
export const WHOLE = 20_000;

/** Gives the search its input: what is to be remembered (answerKey); undefined: all. */
export type Make = (remembered: ReadonlySet<string> | undefined) => SolveInput;

/** `whole` is WHOLE but for tests, which cut where there is no need, to see that it makes no difference. */
export function search(program: Program, make: Make, whole: number = WHOLE): Solved {
  const facts = asked(program.code.keys(), program, 'fact');
  const outcomes = asked(program.code.keys(), program, 'outcome');
  const all = new Set([...outcomes, ...facts]);
  // Whether a walk comes out of a circle must not hang on an answer that changes: what is asked in one is remembered at once.
  const factsAtOnce = facts.size === 0 ? NOTHING : asked(inCircles(program.code), program, 'fact');
  const one = whole < 1 ? undefined : settle(make, wholeSlice, new Set([...outcomes, ...factsAtOnce]), all, whole);
  const solved = one && one.bounded === undefined ? one : inSlices(program, make, factsAtOnce, all);
  return program.cut ? { ...solved, bounded: TOO_MUCH } : solved;
}

const NOTHING: ReadonlySet<string> = new Set();

const TOO_MUCH = 'because what it calls is longer or deeper than can be walked';

function inSlices(program: Program, make: Make, factsAtOnce: ReadonlySet<string>, all: ReadonlySet<string>): Solved {
  const atOnce = new Set([...factsAtOnce, ...asked(inCircles(program.code), program, 'outcome')]);
  const first = make(undefined);
  const parts: Solved[] = [];
  for (const at of slicesOf(program, first.layout, first.doingOf).keys()) {
    const solved = settle(make, (layout, input) => slicesOf(program, layout, input.doingOf)[at] as Slice, atOnce, all, BOUND);
    parts.push(solved);
    // What is larger still than the energy alone would not end either.
    if (solved.bounded !== undefined) break;
  }
  return joined(parts);
}

function settle(
  make: Make,
  slice: (layout: Layout, input: SolveInput) => Slice,
  atOnce: ReadonlySet<string>,
  all: ReadonlySet<string>,
  most: number,
): Solved {
  let remembered = atOnce;
  let before: Pick<Solved, 'states' | 'transitions'> = { states: 0, transitions: 0 };
  for (;;) {
    const input = make(remembered);
    const own = slice(input.layout, input);
    const solved = solve({ ...input, forget: keeping(input.forget, own.keep, input.layout) }, own, most);
    const told = { ...solved, states: solved.states + before.states, transitions: solved.transitions + before.transitions };
    if (solved.bounded !== undefined || remembered.size === all.size) return told;
    // Where a walk is lost early or late depends on what it answered before it comes to the circle.
    const lost = solved.found.some(({ breach }) => breach.rule === 'no-way-out');
    const more = new Set([...remembered, ...(lost ? all : solved.doubts)]);
    if (more.size === remembered.size) return told;
    remembered = more;
    before = told;
  }
}

function joined(parts: readonly Solved[]): Solved {
  return {
    found: parts.flatMap(({ found }) => found),
    states: parts.reduce((sum, { states }) => sum + states, 0),
    transitions: parts.reduce((sum, { transitions }) => sum + transitions, 0),
    bounded: parts.find(({ bounded }) => bounded !== undefined)?.bounded,
    reached: parts[0]?.reached ?? new Set(),
    bands: worstOf(parts.map(({ bands }) => bands)),
    during: worstOf(parts.map(({ during }) => during)),
    doubts: new Set(),
  };
}

/** What some instructions ask, by answerKey. */
function asked(nodes: Iterable<number>, program: Program, kind: 'fact' | 'outcome'): Set<string> {
  const out = new Set<string>();
  for (const node of nodes) {
    const instruction = program.code[node];
    if (instruction?.op === 'open' && kind === 'outcome' && instruction.subject !== '') out.add(answerKey(kind, instruction.subject));
    if (instruction?.op !== 'branch') continue;
    const { condition } = instruction;
    if (condition.kind === 'fact' && kind === 'fact') out.add(answerKey(kind, condition.key));
    if (condition.kind === 'outcome' && kind === 'outcome' && condition.subject !== undefined) out.add(answerKey(kind, condition.subject));
  }
  return out;
}

/** Instructions that lie on a circle: strongly connected components by Tarjan, "Depth-first search and linear graph algorithms", 1972. */
function inCircles(code: readonly Instruction[]): number[] {
  const order = new Int32Array(code.length).fill(-1);
  const low = new Int32Array(code.length);
  const onStack = new Uint8Array(code.length);
  const stack: number[] = [];
  const out: number[] = [];
  let count = 0;
  for (let root = 0; root < code.length; root += 1) {
    if (order[root] !== -1) continue;
    const work: { node: number; next: readonly number[]; at: number }[] = [];
    const begin = (node: number): void => {
      order[node] = low[node] = count;
      count += 1;
      stack.push(node);
      onStack[node] = 1;
      work.push({ node, next: nextOf(code[node] as Instruction), at: 0 });
    };
    begin(root);
    for (let top = work.at(-1); top; top = work.at(-1)) {
      const { node } = top;
      const to = top.next[top.at];
      if (to !== undefined) {
        top.at += 1;
        if (code[to] === undefined) continue;
        if (order[to] === -1) begin(to);
        else if (onStack[to] === 1) low[node] = Math.min(low[node] as number, order[to] as number);
        continue;
      }
      work.pop();
      const above = work.at(-1)?.node;
      if (above !== undefined) low[above] = Math.min(low[above] as number, low[node] as number);
      if (low[node] !== order[node]) continue;
      const component: number[] = [];
      for (let one = stack.pop() as number; ; one = stack.pop() as number) {
        onStack[one] = 0;
        component.push(one);
        if (one === node) break;
      }
      if (component.length > 1 || nextOf(code[node] as Instruction).includes(node)) out.push(...component);
    }
  }
  return out;
}

function nextOf(instruction: Instruction): readonly number[] {
  if (instruction.op === 'end') return [];
  return instruction.op === 'branch' ? [instruction.yes, instruction.no] : [instruction.next];
}
