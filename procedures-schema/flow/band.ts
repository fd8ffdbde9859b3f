/**
 * Whether the machine may be live when a step begins, over every walk that comes to it: what the energy band beside the printed steps
 * shows. Speaks of the sources that reach a hand somewhere in the procedure; says what is required, never what is.
 */
import type { Program } from './code.ts';
import { handsIn } from './effects.ts';
import type { MachineTable, SourceRow } from './machine.ts';
import { safeButProof } from './safety.ts';
import { COVER, type Layout, type State } from './state.ts';

export type Band = 'live' | 'safe' | 'open';

/** The worse of two: what may be live on one walk is shown as live. */
export function worse(a: Band | undefined, b: Band): Band {
  if (a === undefined || a === b) return b;
  return a === 'live' || b === 'live' ? 'live' : 'open';
}

/** Kinds of things that stand where something can hurt a hand. */
const INSIDE: ReadonlySet<string> = new Set(['cover', 'part', 'fastener', 'zone', 'replacement']);

/**
 * Sources that endanger a hand in some step of the program. Where no hand goes in anywhere, as in a procedure that locks out for others, the
 * question is whether the machine as a whole is made safe.
 */
export function reaching(program: Program, table: MachineTable): readonly SourceRow[] {
  const out = new Set<SourceRow>();
  let inside = false;
  for (const instruction of program.code) {
    if (instruction.op !== 'act' || !handsIn(instruction)) continue;
    for (const thing of [...instruction.action.things.map((use) => use.thing), ...instruction.facts.nearby]) {
      inside ||= INSIDE.has(thing.kind);
      for (const row of table.dangerTo(thing.kind, thing.name)?.sources ?? []) out.add(row);
    }
  }
  return inside ? table.sources.filter((row) => out.has(row)) : table.sources;
}

export function bandOf(layout: Layout, state: State, rows: readonly SourceRow[]): Band {
  if (!rows.every((row) => safeButProof(layout, state, row))) return 'live';
  const open = layout.table.coverNames.some(
    (_, index) => state[layout.cover + index] === COVER.open || state[layout.cover + index] === COVER.given,
  );
  return open ? 'open' : 'safe';
}
