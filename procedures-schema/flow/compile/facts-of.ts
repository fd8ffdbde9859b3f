/** What an action is done amid: its words and heading, what a hand comes near, and the test run and the notices ahead of it. */
import type { Action, Sentence } from '../../reading/index.ts';
import type { ActFacts } from '../code.ts';
import type { ReadStep } from '../model.ts';
import { testRuns, topOf, topSteps } from './sections-of.ts';
import type { Unit } from './unit.ts';

/** What is judged also by its words: which return test it is, whether it lasts (effects/). */
const WORDED: ReadonlySet<string> = new Set(['prove', 'observe', 'measure', 'sense', 'test-run']);

/** What a hand is at when it is named as a place. A cover is not: things are seen through it and stood before it. */
const REACHED: ReadonlySet<string> = new Set(['part', 'fastener', 'zone']);

export function factsOf(unit: Unit, step: ReadStep, sentence: Sentence, action: Action): ActFacts {
  const { standClear, test } = testFrom(unit, step);
  const own = new Set(action.things.map((use) => use.thing.name));
  const nearby = sentence.mentions.flatMap(({ thing, at, end }) =>
    at >= action.at && end <= action.end && REACHED.has(thing.kind) && !own.has(thing.name) ? [thing] : [],
  );
  const words = WORDED.has(action.kind) ? sentence.text : '';
  return { words, heading: step.at.section.title, standClear, testAhead: test, nearby };
}

/** Whether a test run comes in this section from a step on, and whether a notice on the way says to stand clear. */
function testFrom(unit: Unit, step: ReadStep): { readonly standClear: boolean; readonly test: boolean } {
  const known = unit.tests.get(step);
  if (known) return known;
  const section = topSteps(unit, step.at.section);
  const from = Math.max(0, topOf(unit, step));
  const at = testRuns(unit, step.at.section).find((index) => index >= from) ?? -1;
  const between = at < 0 ? [] : section.slice(from, at + 1);
  const standClear = [step, ...between].some((one) => one.notices.some((notice) => notice.standClear));
  const made = { standClear, test: at >= 0 };
  unit.tests.set(step, made);
  return made;
}
