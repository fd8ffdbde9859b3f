/**
 * The search against a plain one: slips done to the sample library, and every way through them walked by the step-by-step walker, one
 * machine at a time, nothing forgotten and nothing grouped. Both must break the same rules on the same things, and the shortest walk the
 * proof prints must be as short as the shortest there is. What actions do is the same code in both; this is about the walking.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import {
  compile,
  type Engine,
  type LibraryReport,
  newEngine,
  type ProcedureFacts,
  type WalkPosition,
  walkerOf,
} from '../../procedures-schema/index.ts';
import { mutantsOf } from '../support/mutations.ts';
import { drawn, randomFrom, seedOfRun } from '../support/random.ts';
import { sample } from '../support/sample.ts';

const seed = seedOfRun();
const MOST = 60_000;
/** Told by the search itself, not by what an action does or an end asks. */
const OF_THE_SEARCH = [
  'unread',
  'never-reached',
  'requires',
  'no-way-out',
  'outcome-open',
  'outcome-unread',
  'starts-with',
  'bound',
  'recursion',
  'falls-into-aside',
];

let engine: Engine;
let sound: LibraryReport;
const texts = new Map<string, string>();
beforeAll(async () => {
  const { texts: files, paths } = await sample();
  for (const { path, text } of files) texts.set(path, text);
  engine = newEngine();
  engine.apply([...files, ...paths.filter((path) => !texts.has(path)).map((path) => ({ path, present: true as const }))]);
  sound = engine.report();
});

/** Least number of steps after which each (rule, thing) is broken on one machine; undefined: too many positions to walk them all. */
function walked(
  facts: ProcedureFacts,
  report: LibraryReport,
  machine: ProcedureFacts['machines'][number],
): Map<string, number> | undefined {
  const others = (number: string) => report.facts.procedures.find(({ head }) => head.id === number)?.read;
  const program = compile({ procedure: facts.read, others });
  const walker = walkerOf({ procedures: [facts.read], registers: report.facts.registers, others }, program, machine, facts.head.startsWith);
  const least = new Map<string, number>();
  const seen = new Set<string>();
  let level: WalkPosition[] = [];
  let next: WalkPosition[] = [];
  const meet = (position: WalkPosition, steps: number, into: WalkPosition[]): void => {
    for (const { rule, thing } of position.breaches) {
      const key = `${rule} ${thing}`;
      if (!least.has(key)) least.set(key, steps);
    }
    const key = `${position.node}:${position.state.join(',')}`;
    if (seen.has(key) || position.stop.kind === 'end') return;
    seen.add(key);
    into.push(position);
  };
  meet(walker.start(), 0, level);
  for (let steps = 1; level.length > 0; steps += 1) {
    for (let index = 0; index < level.length; index += 1) {
      const position = level[index] as WalkPosition;
      if (seen.size > MOST) return undefined;
      if (position.stop.kind === 'step') meet(walker.next(position), steps, next);
      else for (const answer of [true, false]) meet(walker.next(position, answer), steps - 1, level);
    }
    level = next;
    next = [];
  }
  return least;
}

describe('proof and plain walking', () => {
  test.each(['drop a lock', 'drop a try-out', 'drop a relief', 'drop a refit', 'drop a people-clear'])('%s', (operator) => {
    const mutants = drawn(mutantsOf(operator, sound.facts.procedures, sound.facts.registers), 8, randomFrom(seed));
    let compared = 0;
    let broken = 0;
    for (const mutant of mutants) {
      engine.apply([{ path: mutant.file, text: mutant.text }]);
      const report = engine.report();
      const facts = report.facts.procedures.find(({ file }) => file === mutant.file) as ProcedureFacts;
      engine.apply([{ path: mutant.file, text: texts.get(mutant.file) as string }]);
      if (facts.flow.violations.some(({ rule }) => OF_THE_SEARCH.includes(rule))) continue;
      for (const machine of [facts.machines[0], facts.machines[facts.machines.length - 1]]) {
        const least = machine && walked(facts, report, machine);
        if (machine === undefined || least === undefined) continue;
        const own = facts.flow.violations.filter(({ variants }) => variants.length === 0 || variants.includes(machine.variant.name));
        const where = `seed ${seed}, ${mutant.file} on ${machine.variant.name}: ${mutant.what}`;
        expect([...new Set(own.map(({ rule, thing }) => `${rule} ${thing}`))].sort(), where).toEqual([...least.keys()].sort());
        for (const key of least.keys()) {
          // One thing may be broken by several causes, each with a walk of its own: the shortest of them is the shortest there is.
          const walks = own.filter(({ rule, thing }) => `${rule} ${thing}` === key).map(({ walk }) => walk.length);
          expect(Math.min(...walks), `${where}: ${key}`).toBeLessThanOrEqual(least.get(key) as number);
          broken += 1;
        }
        compared += 1;
      }
    }
    console.log(`${operator}: ${compared} machines walked every way, ${broken} broken rules compared, seed ${seed}`);
    expect(compared).toBeGreaterThan(4);
  });
});
