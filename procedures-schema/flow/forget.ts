/** Which outcomes and facts still matter at an instruction: what nobody ahead reads is forgotten, so that walks meet again. */
import type { Instruction, Program } from './code.ts';
import type { Layout, State } from './state.ts';

/** Outcomes and facts that no instruction ahead reads are set to zero: walks that differ only in them meet again. */
export function forgetter(program: Program, layout: Layout): (node: number, state: State) => State {
  const total = layout.outcomes.length + layout.facts.length;
  if (total === 0 || total > 30) return (_, state) => state;
  const live = new Uint32Array(program.code.length);
  const reads = (instruction: Instruction): number => {
    if (instruction.op === 'open') return bitOf(layout.outcomes.indexOf(instruction.subject));
    if (instruction.op !== 'branch') return 0;
    const { condition } = instruction;
    if (condition.kind === 'outcome' && condition.subject !== undefined) return bitOf(layout.outcomes.indexOf(condition.subject));
    if (condition.kind === 'fact') {
      const at = layout.facts.indexOf(condition.key);
      return at < 0 ? 0 : 1 << (layout.outcomes.length + at);
    }
    return 0;
  };
  const writes = (instruction: Instruction): number => {
    if (instruction.op !== 'act') return 0;
    return instruction.action.things.reduce(
      (bits, use) => bits | (use.thing.kind === 'measurement' ? bitOf(layout.outcomes.indexOf(use.thing.name)) : 0),
      0,
    );
  };
  for (let again = true; again; ) {
    again = false;
    for (let node = program.code.length - 1; node >= 0; node -= 1) {
      const instruction = program.code[node] as Instruction;
      const after = nextOf(instruction).reduce((bits, next) => bits | (live[next] ?? 0), 0);
      const value = ((after & ~writes(instruction)) | reads(instruction)) >>> 0;
      if (live[node] !== value) {
        live[node] = value;
        again = true;
      }
    }
  }
  return (node, state) => {
    const wanted = live[node] ?? 0;
    let out = state;
    for (let index = 0; index < total; index += 1) {
      const at = index < layout.outcomes.length ? layout.outcome + index : layout.fact + index - layout.outcomes.length;
      if ((wanted & (1 << index)) === 0 && out[at] !== 0) {
        if (out === state) out = state.slice();
        out[at] = 0;
      }
    }
    return out;
  };
}

const bitOf = (at: number): number => (at < 0 ? 0 : 1 << at);

function nextOf(instruction: Instruction): readonly number[] {
  if (instruction.op === 'end') return [];
  if (instruction.op === 'branch') return [instruction.yes, instruction.no];
  return [instruction.next];
}
