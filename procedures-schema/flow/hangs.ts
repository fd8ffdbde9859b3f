/**
 * Findings that may follow only from a sentence that was not read: the lock it may have put on, the cover it may have closed. They are
 * told once, at that sentence, as what cannot be shown until it is read; the walk is then not proved. What the sentence may mean is
 * said from what it names and from a few words of its own; where it says nothing of the matter, the finding stands.
 */

import type { Sentence } from '../reading/index.ts';
import { aboutOf, type Subject } from '../reading/index.ts';
import type { Machine } from '../registers/index.ts';
import type { ReadStep, Rule, Violation } from './model.ts';

export interface Unread {
  readonly violation: Violation;
  readonly sentence: Sentence;
  readonly step: ReadStep;
}

/** Moves what may follow from an unread sentence to it. */
export function hungOn(unread: readonly Unread[], violations: readonly Violation[], machines: readonly Machine[]): Violation[] {
  if (unread.length === 0) return [...violations];
  const hangs = new Map<Unread, Violation[]>();
  const rest: Violation[] = [];
  for (const violation of violations) {
    const on = unread.filter((one) => before(one, violation) && mayMend(one.sentence, violation, machines)).at(-1);
    if (on) hangs.set(on, [...(hangs.get(on) ?? []), violation]);
    else rest.push(violation);
  }
  return [...rest, ...unread.map((one) => ({ ...one.violation, ...(hangs.has(one) ? { hangs: hangs.get(one) ?? [] } : {}) }))];
}

/** The sentence stands on the walk, after the step that set the bit wrong and before the place where that is found out. */
function before({ step, violation: own }: Unread, { walk, at, cause, rule }: Violation): boolean {
  const steps = walk.map(({ place }) => place.step);
  const here = steps.lastIndexOf(step.at);
  if (here < 0) return false;
  // A proof that came too early or showed nothing hangs on what was done before it.
  const from = cause?.step && !rule.startsWith('proof') && !rule.startsWith('H-') ? steps.indexOf(cause.step) : 0;
  if (here < from) return false;
  return step.at !== at.step || own.at.span.start <= at.span.start || rule.startsWith('E-');
}

/** Whether the sentence, were it read, might set right what is found wrong. */
function mayMend(sentence: Sentence, { rule, thing, missing }: Violation, machines: readonly Machine[]): boolean {
  const about = aboutOf(sentence);
  const says = (subject: Subject): boolean => about.subjects.has(subject);
  const names = (...all: readonly string[]): boolean => all.some((name) => about.names(name));
  const own = machines.flatMap(({ sources }) => sources.filter(({ name }) => name === thing));
  const points = own.flatMap(({ isolate }) => isolate.map(({ point }) => point));
  const ways = own.flatMap(({ relieve, restrain }) => [...relieve, ...restrain].map(({ point }) => point));
  const cutOff = (): boolean => names(...points);
  // A lock that says where it goes is on no other point.
  const all = machines.flatMap((machine) => machine.points.map(({ name }) => name));
  const where = names(...all);
  const locked = (): boolean => says('lock') && (!where || names(thing, ...points));
  const gone = (): boolean => names(thing, ...ways) || (says('wait') && own.some(({ settles }) => settles !== undefined));
  const shown = (): boolean =>
    names(thing, ...own.flatMap(({ shownBy, tryOut }) => [...shownBy, ...tryOut])) ||
    (says('meter') && own.some(({ provedWith }) => provedWith.length > 0));
  const parts = machines.flatMap(({ fasteners, parts: all, covers }) => [...fasteners, ...all, ...covers]);
  const belongs = parts.flatMap((one) => (one.name === thing && 'of' in one && one.of !== undefined ? [one.of] : []));
  const ASKED: Readonly<Partial<Record<Rule, () => boolean>>> = {
    // Every point that is missing, not one of two.
    'H-isolated': () => missing.length > 0 && missing.every((point) => names(point)),
    'H-locked': () => locked() && (!where || missing.every((point) => names(point))),
    'H-relieved': gone,
    'H-proved': shown,
    'proof-early': () => cutOff() || locked() || gone() || shown(),
    'earth-untested': shown,
    'proof-used': shown,
    'proof-empty': () => shown() || names(...missing),
    'R-people': () => says('people'),
    'R-tools': () => says('tools'),
    'R-told': () => says('tell'),
    'E-told': () => says('tell'),
    'R-controls': () => names(...missing),
    'E-return-test': () => says('test') || names(thing),
    'E-lock': locked,
    'point-locked': locked,
    'close-unopened': () =>
      names(thing, ...belongs) || (says('lock') && machines.some(({ points: all }) => all.some(({ name }) => name === thing))),
    'ends-with': () => cutOff() || locked() || gone() || shown(),
    'starts-with': () => cutOff() || locked() || gone() || shown(),
  };
  const asked = ASKED[rule];
  if (asked) return asked();
  return [
    'E-cover',
    'R-covers',
    'E-part',
    'E-fastener',
    'E-temporary',
    'R-temporary',
    'E-point',
    'outcome-unread',
    'outcome-open',
  ].includes(rule)
    ? names(thing, ...belongs)
    : false;
}
