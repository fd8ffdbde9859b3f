/** What must be seen while a passage is said, from where, with which thing in view: from the actions it was read as. Films nothing and decides no cut. */
import type { ProcedureFacts } from '../checks/index.ts';
import type { StepChild } from '../format/index.ts';
import type { LabelledStep } from '../numbering/index.ts';
import type { Action, ActionKind } from '../reading/index.ts';
import type { Family, Measurement, ThingKind } from '../registers/index.ts';
import type { Shot } from './model.ts';
import { scriptWords } from './script-words.ts';

const { shot: words, care } = scriptWords;

/** Kinds of thing a camera can look at on the machine. */
const SEEN: ReadonlySet<ThingKind> = new Set(['point', 'control', 'cover', 'zone', 'part', 'fastener', 'gauge', 'source', 'machine']);
const AT_HAND: ReadonlySet<ThingKind> = new Set(['tool', 'consumable', 'replacement', 'gauge']);

/** Where people are seen, not the machine. */
const PEOPLE: ReadonlySet<ActionKind> = new Set(['tell', 'clear-people', 'take-tools', 'stand-clear', 'stop-and-call', 'out-of-service']);

export const TITLE_CARD: Shot = { see: [], from: words.speaker, inView: [], figures: [], care: '' };

export function shotOf(actions: readonly Action[], step: LabelledStep, facts: ProcedureFacts, families: readonly Family[]): Shot {
  const uses = actions.flatMap((action) => [...action.things, ...action.with]);
  const names = (kinds: ReadonlySet<ThingKind>): string[] => [
    ...new Set(uses.filter(({ thing }) => kinds.has(thing.kind)).map(({ thing }) => thing.name)),
  ];
  const measured = facts.head.measurements.filter((one) =>
    uses.some(({ thing }) => thing.kind === 'measurement' && thing.name === one.name),
  );
  const instruments = measured.flatMap((one) => one.with ?? []);
  return {
    see: names(SEEN),
    from: placeOf(actions, measured, families),
    inView: [...new Set([...names(AT_HAND), ...instruments])],
    figures: figuresIn(step.step.children),
    care: care[stateAt(step, facts)],
  };
}

/** The first that says where: people, outside, the place of a measurement, the zone of a thing, the thing itself. */
function placeOf(actions: readonly Action[], measured: readonly Measurement[], families: readonly Family[]): string {
  if (actions.some((action) => PEOPLE.has(action.kind))) return words.people;
  if (actions.some((action) => action.outside)) return words.outside;
  const place = measured.find((one) => one.at !== undefined)?.at;
  if (place !== undefined) return words.measured(place);
  const things = actions.flatMap((action) => action.things.map(({ thing }) => thing));
  for (const thing of things) {
    const family = families.find(({ name }) => thing.family === undefined || name === thing.family);
    const zone = [...(family?.parts ?? []), ...(family?.fasteners ?? []), ...(family?.covers ?? [])].find(
      ({ name }) => name === thing.name,
    )?.zone;
    if (zone !== undefined) return words.into(zone);
  }
  const held = things.find(({ kind }) => kind === 'point' || kind === 'control' || kind === 'gauge');
  if (held) return words.at(held.name);
  return actions.some((action) => action.contact) ? words.hands : words.machine;
}

function figuresIn(children: readonly StepChild[]): string[] {
  return children.flatMap((child) => (child.kind === 'figure' ? [child.path] : []));
}

/** The worst in which the step may be begun; what is not proved counts as unknown. */
export function stateAt(step: LabelledStep, { flow }: ProcedureFacts): keyof typeof care {
  const proved = flow.verdicts.length > 0 && flow.verdicts.every(({ verdict }) => verdict === 'proved');
  return proved ? (flow.bands.get(step) ?? 'unknown') : 'unknown';
}
