/**
 * How far the machine is made safe when a step begins and while it is done, over every walk that comes to it: what the energy band beside the
 * printed steps shows. Speaks of the sources that reach a hand somewhere in the procedure; says what is required, never what is.
 */
import type { LabelledStep } from '../numbering/index.ts';
import type { Program } from './code.ts';
import { handsIn } from './effects/rule-hands.ts';
import type { MachineTable, SourceRow } from './machine.ts';
import type { Band } from './model.ts';
import { safeButProof, stillKept } from './safety.ts';
import { COVER, type Layout, type State } from './state.ts';

const RANK: Readonly<Record<Band, number>> = { safe: 0, open: 1, cut: 2, live: 3 };

/** The worse of two: what may be live on one walk is shown as live. */
export const worse = (a: Band | undefined, b: Band): Band => (a !== undefined && RANK[a] > RANK[b] ? a : b);

/** The worst of each step over several searches. */
export function worstOf(parts: readonly ReadonlyMap<LabelledStep, Band>[]): ReadonlyMap<LabelledStep, Band> {
  const out = new Map<LabelledStep, Band>();
  for (const part of parts) for (const [step, band] of part) out.set(step, worse(out.get(step), band));
  return out;
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
  // An earth taken off lets the energy come back at once, though the rules ask for a new proof only before the hand after next.
  if (!rows.every((row) => stillKept(layout, state, row))) return 'cut';
  const open = layout.table.coverNames.some(
    (_, index) => state[layout.cover + index] === COVER.open || state[layout.cover + index] === COVER.given,
  );
  return open ? 'open' : 'safe';
}
