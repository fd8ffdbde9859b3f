/** Rule E: what must be closed, out, tight, off and tested at an end, and whether the end is the one that was said. */
import type { EndKind } from './code.ts';
import type { Breach } from './effects/doing.ts';
import { isolated, locked, missingOfLockOut } from './safety.ts';
import { COVER, FASTENER, type Layout, PART, POINT, type State, TAKEN } from './state.ts';

export function askAtEnd(layout: Layout, state: State, end: EndKind, endsWith: string): readonly Breach[] {
  const out: Breach[] = [];
  const breach = (
    rule: Breach['rule'],
    thing: string,
    bits: number | readonly number[],
    missing: readonly string[] = [],
    severity: Breach['severity'] = 'error',
    mask?: number,
  ): void => {
    out.push({ rule, thing, missing, bits: [bits].flat(), severity, ...(mask === undefined ? {} : { mask }) });
  };
  const { table } = layout;
  const declared = state[layout.declared] === 1;
  if (end === 'stop and call' && !declared) return out;
  const lockedOut = declared || end === 'out of service' || endsWith === 'opened and locked out' || endsWith === 'out of service';
  if (!declared && end !== 'out of service' && endsWith === 'opened and locked out') {
    for (const row of table.sources) {
      const missing = missingOfLockOut(layout, state, row);
      if (missing) breach('ends-with', row.source.name, missing.bits, [missing.words]);
    }
    return out;
  }
  if (lockedOut) {
    for (const row of table.sources)
      if (!isolated(layout, state, row) || !locked(layout, state, row, 255))
        breach('ends-with', row.source.name, missingOfLockOut(layout, state, row)?.bits ?? [], [
          `the ${row.source.name} is not isolated and locked`,
        ]);
    return out;
  }
  // A hand-over passes the debt on by name; the visit asks for it.
  if (end === 'hand-over') return out;
  for (const [index, name] of table.coverNames.entries())
    if (state[layout.cover + index] === COVER.open) breach('E-cover', name, layout.cover + index);
  for (const [index, name] of table.partNames.entries())
    if (state[layout.part + index] === PART.out) breach('E-part', name, layout.part + index);
  for (const [index, name] of table.fastenerNames.entries()) {
    const value = state[layout.fastener + index];
    const of = table.machine.fasteners[index]?.of;
    // What is still off is told once, by the cover or part it belongs to.
    const off =
      of !== undefined &&
      ((table.covers.has(of) && state[layout.cover + (table.covers.get(of) as number)] === COVER.open) ||
        (table.parts.has(of) && state[layout.part + (table.parts.get(of) as number)] === PART.out));
    if ((value === FASTENER.loose || value === FASTENER.hand) && !off) breach('E-fastener', name, layout.fastener + index);
  }
  for (const [index, name] of layout.temporaries.entries())
    if (state[layout.temporary + index] === 1) breach('E-temporary', name, layout.temporary + index);
  for (const [index, name] of table.pointNames.entries()) {
    const taken = state[layout.taken + index] ?? 0;
    const locks = (state[layout.lock + index] ?? 0) & ~taken;
    if (locks !== 0) breach('E-lock', name, layout.lock + index, [], 'warning', locks);
    if (state[layout.point + index] === POINT.safe && (taken & TAKEN) === 0) breach('E-point', name, layout.point + index);
  }
  for (const [index, name] of layout.tests.entries())
    if (state[layout.test + index] === 1) breach('E-return-test', name, layout.test + index, [table.returnTests.get(name) as string]);
  if (state[layout.told] === 0) breach('E-told', 'people', layout.told, [], 'warning');
  return out;
}
