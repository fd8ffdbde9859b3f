/** Covers, parts and fasteners as they are taken off, put back and tightened, and which return test they then owe. */
import { COVER, FASTENER, PART } from '../state.ts';
import { asksState, type Effect, tellBreach, thingsOf } from './doing.ts';

export function disturb(effect: Effect, name: string): void {
  const at = effect.layout.tests.indexOf(name);
  if (at >= 0) effect.state[effect.layout.test + at] = 1;
}

export function setThing(effect: Effect, kind: 'cover' | 'part' | 'fastener', name: string, value: number): void {
  const { layout } = effect;
  const at = layout.table[kind === 'cover' ? 'covers' : kind === 'part' ? 'parts' : 'fasteners'].get(name);
  if (at !== undefined) effect.state[layout[kind] + at] = value;
}

function stateOfThing(effect: Effect, kind: 'cover' | 'part' | 'fastener', name: string): number | undefined {
  const { layout } = effect;
  const at = layout.table[kind === 'cover' ? 'covers' : kind === 'part' ? 'parts' : 'fasteners'].get(name);
  return at === undefined ? undefined : effect.state[layout[kind] + at];
}

export function openThings(effect: Effect): void {
  for (const { thing } of thingsOf(effect, 'cover')) {
    setThing(effect, 'cover', thing.name, COVER.open);
    disturb(effect, thing.name);
    loosenOf(effect, thing.name);
  }
  for (const { thing } of thingsOf(effect, 'part')) {
    setThing(effect, 'part', thing.name, PART.out);
    disturb(effect, thing.name);
    loosenOf(effect, thing.name);
  }
  for (const { thing } of thingsOf(effect, 'fastener')) {
    setThing(effect, 'fastener', thing.name, FASTENER.loose);
    disturb(effect, thing.name);
  }
}

/** Taking a thing off undoes its fasteners; those without a torque travel with it. */
function loosenOf(effect: Effect, name: string): void {
  const { layout, state } = effect;
  for (const index of layout.table.fastenersOf(name))
    if (layout.table.machine.fasteners[index]?.torque !== undefined && state[layout.fastener + index] !== FASTENER.loose)
      state[layout.fastener + index] = FASTENER.loose;
}

export function closeThings(effect: Effect): void {
  const { layout, state } = effect;
  for (const { thing } of effect.doing.action.things) {
    const name = thing.kind === 'replacement' ? (effect.doing.renews(thing.name) ?? thing.name) : thing.name;
    const kind = thing.kind === 'replacement' ? 'part' : thing.kind;
    if (kind === 'cover' || kind === 'part') {
      const before = stateOfThing(effect, kind, name);
      if (before === undefined) continue;
      if (
        !asksState(effect) &&
        before !== COVER.open &&
        before !== COVER.given &&
        thing.kind !== 'replacement' &&
        !(kind === 'part' && anyLoose(effect, name))
      )
        tellBreach(
          effect,
          'close-unopened',
          name,
          [],
          [layout[kind] + (layout.table[kind === 'cover' ? 'covers' : 'parts'].get(name) ?? 0)],
          undefined,
          'warning',
        );
      setThing(effect, kind, name, COVER.done);
      // Screws without a torque are put in with the thing they belong to.
      for (const index of layout.table.fastenersOf(name))
        if (layout.table.machine.fasteners[index]?.torque === undefined) state[layout.fastener + index] = FASTENER.done;
    } else if (kind === 'fastener') {
      const at = layout.table.fasteners.get(name);
      if (at === undefined) continue;
      const torque = layout.table.machine.fasteners[at]?.torque !== undefined;
      state[layout.fastener + at] = torque ? FASTENER.hand : FASTENER.done;
    }
  }
}

function anyLoose(effect: Effect, name: string): boolean {
  return effect.layout.table.fastenersOf(name).some((index) => effect.state[effect.layout.fastener + index] === FASTENER.loose);
}

export function tightenFasteners(effect: Effect): void {
  const { layout, state } = effect;
  const { action } = effect.doing;
  for (const { thing } of thingsOf(effect, 'fastener')) {
    const at = layout.table.fasteners.get(thing.name);
    if (at === undefined) continue;
    const fastener = layout.table.machine.fasteners[at];
    const before = state[layout.fastener + at];
    const of = fastener?.of;
    const opened =
      of !== undefined &&
      [stateOfThing(effect, 'cover', of), stateOfThing(effect, 'part', of)].some((value) => value !== undefined && value !== 0);
    if (before === FASTENER.found && !opened && !asksState(effect))
      tellBreach(effect, 'close-unopened', thing.name, [], [layout.fastener + at], undefined, 'warning');
    state[layout.fastener + at] = action.stage === 'hand' || action.stage === 'first' ? FASTENER.hand : FASTENER.done;
  }
}

/** Named by the sentence or by what it measures; a heading must name the whole test, for much is done under "Test the interlock". */
export function noteReturnTest(effect: Effect): void {
  const { layout, state } = effect;
  const { action, facts } = effect.doing;
  const said =
    `${facts.words} ${action.things.map((use) => `${use.thing.name} ${use.thing.kind === 'measurement' ? effect.doing.quantityOf(use.thing.name) : ''}`).join(' ')}`.toLowerCase();
  for (const [index, name] of layout.tests.entries()) {
    const test = (layout.table.returnTests.get(name) ?? '').toLowerCase();
    const word = test.replace(/\s+test$/, '');
    if (said.includes(word) || facts.heading.toLowerCase().includes(test)) state[layout.test + index] = 0;
  }
}
