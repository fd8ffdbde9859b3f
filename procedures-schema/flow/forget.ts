/** Which outcomes and facts still matter at an instruction: what nobody ahead reads is forgotten, so that walks meet again. */
import type { Instruction, Program } from './code.ts';
import { ALL_OUTCOMES, measuredBy } from './effects/measured.ts';
import type { Layout, State } from './state.ts';

type Forget = (node: number, state: State) => State;

/**
 * Outcomes and facts that no instruction ahead reads are set to zero: walks that differ only in them meet again. What is loose is set
 * back to all it can be when a step begins.
 */
export function forgetter(program: Program, layout: Layout): Forget {
  const places = [...layout.outcomes.map((_, index) => layout.outcome + index), ...layout.facts.map((_, index) => layout.fact + index)];
  if (places.length === 0) return (_, state) => state;
  const live = liveIn(program, layout, places.length);
  const loose = layout.outcomes.flatMap((name, index) => (layout.loose.has(name) ? [layout.outcome + index] : []));
  return (node, state) => {
    let out = state;
    const put = (at: number, value: number): void => {
      if (out === state) out = state.slice();
      out[at] = value;
    };
    // What an earlier step found out about it is asked anew; that it was measured stays.
    if (loose.length > 0 && program.code[node]?.op === 'step')
      for (const at of loose) if (out[at] !== 0 && out[at] !== ALL_OUTCOMES) put(at, ALL_OUTCOMES);
    for (const [index, at] of places.entries()) if (out[at] !== 0 && !live(node, index)) put(at, 0);
    return out;
  };
}

/** Backward over the instructions until nothing changes; sets are words of 32 bits, for a long procedure asks about many things. */
function liveIn(program: Program, layout: Layout, total: number): (node: number, index: number) => boolean {
  const words = Math.ceil(total / 32);
  const count = program.code.length;
  const live = new Uint32Array(count * words);
  const reads = program.code.map((instruction) => readBy(instruction, layout));
  const writes = program.code.map((instruction) => writtenBy(instruction, layout));
  const value = new Uint32Array(words);
  for (let again = true; again; ) {
    again = false;
    for (let node = count - 1; node >= 0; node -= 1) {
      value.fill(0);
      for (const next of nextOf(program.code[node] as Instruction))
        if (next < count)
          for (let word = 0; word < words; word += 1) value[word] = (value[word] as number) | (live[next * words + word] as number);
      for (const at of writes[node] as readonly number[]) value[at >> 5] = (value[at >> 5] as number) & ~(1 << (at & 31));
      for (const at of reads[node] as readonly number[]) value[at >> 5] = (value[at >> 5] as number) | (1 << (at & 31));
      for (let word = 0; word < words; word += 1) {
        if (live[node * words + word] === value[word]) continue;
        live[node * words + word] = value[word] as number;
        again = true;
      }
    }
  }
  return (node, index) => ((live[node * words + (index >> 5)] ?? 0) & (1 << (index & 31))) !== 0;
}

/** Places among outcomes and then facts. */
function readBy(instruction: Instruction, layout: Layout): readonly number[] {
  const outcome = (subject: string): readonly number[] => found(layout.outcomes.indexOf(subject), 0);
  if (instruction.op === 'open') return outcome(instruction.subject);
  if (instruction.op !== 'branch') return NONE;
  const { condition } = instruction;
  if (condition.kind === 'outcome' && condition.subject !== undefined) return outcome(condition.subject);
  return condition.kind === 'fact' ? found(layout.facts.indexOf(condition.key), layout.outcomes.length) : NONE;
}

function writtenBy(instruction: Instruction, layout: Layout): readonly number[] {
  if (instruction.op !== 'act') return NONE;
  return measuredBy(instruction.action).flatMap((name) => found(layout.outcomes.indexOf(name), 0));
}

const NONE: readonly number[] = [];
const found = (at: number, from: number): readonly number[] => (at < 0 ? NONE : [from + at]);

function nextOf(instruction: Instruction): readonly number[] {
  if (instruction.op === 'end') return NONE;
  return instruction.op === 'branch' ? [instruction.yes, instruction.no] : [instruction.next];
}

/** Forgets also what a slice does not keep. */
export function keeping(forget: Forget, keep: Uint8Array, layout: Layout): Forget {
  const dropped = [...keep.keys()].filter((bit) => keep[bit] === 0 && bit < layout.outcome);
  if (dropped.length === 0) return forget;
  return (node, state) => {
    const after = forget(node, state);
    let out = after;
    for (const bit of dropped)
      if (out[bit] !== 0) {
        if (out === after) out = after.slice();
        out[bit] = 0;
      }
    return out;
  };
}
