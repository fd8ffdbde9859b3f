/** Rule R, asked before something comes alive: people, tools, temporary things, controls, told, covers. semantics.md 10. */
import type { SourceRow } from '../machine.ts';
import { isolated } from '../safety.ts';
import { COVER } from '../state.ts';
import { type Effect, tellBreach, thingsOf } from './doing.ts';

/** Rule R. Without a row: the machine is started. */
export function askBeforeLive(effect: Effect, row: SourceRow | undefined, test: boolean): void {
  const { layout, state } = effect;
  const { facts } = effect.doing;
  const thing = row?.source.name ?? 'the machine';
  if (state[layout.people] === 0) {
    tellBreach(effect, 'R-people', thing, [], [layout.people]);
    state[layout.people] = 1;
  }
  if (state[layout.tools] === 0) {
    tellBreach(effect, 'R-tools', thing, [], [layout.tools]);
    state[layout.tools] = 1;
  }
  for (const [index, name] of layout.temporaries.entries()) {
    if (state[layout.temporary + index] !== 1 || effect.doing.liveTask) continue;
    tellBreach(effect, 'R-temporary', name, [name], [layout.temporary + index]);
    state[layout.temporary + index] = 0;
  }
  const on = layout.table.machine.controls.flatMap((control, index) =>
    control.maintained &&
    state[layout.control + index] === 1 &&
    (!row || control.starts.length === 0 || control.starts.includes(row.source.name))
      ? [index]
      : [],
  );
  if (row && on.length > 0) {
    tellBreach(
      effect,
      'R-controls',
      thing,
      on.map((index) => layout.table.controlNames[index] as string),
      on.map((index) => layout.control + index),
    );
    for (const index of on) state[layout.control + index] = 0;
  }
  if (!row && state[layout.told] === 0) {
    tellBreach(effect, 'R-told', thing, [], [layout.told], undefined, 'warning');
    state[layout.told] = 1;
  }
  const covers = (row ? layout.table.coversOver(row) : layout.table.machine.covers.map((_, index) => index)).filter(
    (index) => state[layout.cover + index] === COVER.open && !layout.table.machine.covers[index]?.openLive,
  );
  const guarded = (facts.testAhead || test) && facts.standClear;
  // The cover is what is wrong, whichever source comes back first; it is still owed at the end.
  if (!guarded)
    for (const index of covers) tellBreach(effect, 'R-covers', layout.table.coverNames[index] as string, [thing], [layout.cover + index]);
}

/** The control starts only sources that are cut off: nothing comes to life. */
export function startsDead(effect: Effect): boolean {
  const { layout, state } = effect;
  const names = thingsOf(effect, 'control').flatMap(
    (use) => layout.table.machine.controls[layout.table.controls.get(use.thing.name) ?? -1]?.starts ?? [],
  );
  const rows = names.flatMap((name) => layout.table.sourceOf.get(name) ?? []);
  return rows.length > 0 && rows.every((row) => row.isolate.length > 0 && isolated(layout, state, row));
}
