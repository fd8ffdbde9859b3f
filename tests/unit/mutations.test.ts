/**
 * Slips done to the sample library, 300 of them drawn at run time: each must be found by the check that is named for it, at the place
 * where it was made, and bring no other error along but those its operator states. What is not found and the naive checker does not
 * mind either is no slip. HANDSCLEAR_SEED repeats a run.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Engine, type Finding, type LibraryReport, newEngine } from '../../procedures-schema/index.ts';
import { type Mutant, mutantsOf, OPERATORS } from '../support/mutations.ts';
import { naiveOn } from '../support/naive-library.ts';
import { drawn, randomFrom, seedOfRun } from '../support/random.ts';
import { sample } from '../support/sample.ts';

/** Slips that a walk shows; the others stand in the words, and the naive checker reads none. */
const OF_THE_WALK: ReadonlySet<string> = new Set([
  ...['drop a lock', 'drop a try-out', 'drop a relief', 'drop a people-clear', 'drop a refit'],
]);
const WANTED = 300;
const LEAST = 0.95;
const seed = seedOfRun();
const table: string[] = [];

let engine: Engine;
let sound: LibraryReport;
const texts = new Map<string, string>();
const chosen = new Map<string, readonly Mutant[]>();

beforeAll(async () => {
  const { texts: files, paths } = await sample();
  for (const { path, text } of files) texts.set(path, text);
  engine = newEngine();
  const others = paths.filter((path) => !texts.has(path)).map((path) => ({ path, present: true as const }));
  engine.apply([...files, ...others]);
  sound = engine.report();
  const random = randomFrom(seed);
  const all = new Map(Object.keys(OPERATORS).map((name) => [name, mutantsOf(name, sound.facts.procedures, sound.facts.registers)]));
  // An equal share each; what small operators leave goes to the larger ones.
  let left = WANTED;
  const bySize = [...all].sort((a, b) => a[1].length - b[1].length);
  bySize.forEach(([name, mutants], index) => {
    const own = drawn(mutants, Math.ceil(left / (bySize.length - index)), random);
    left -= own.length;
    chosen.set(name, own);
  });
});

afterAll(() => console.log(`seed ${seed}\n${table.sort().join('\n')}`));

const NO_SLIP = 'no slip';

function judge(mutant: Mutant): string | undefined {
  engine.apply([{ path: mutant.file, text: mutant.text }]);
  const report = engine.report();
  const { findings: found } = report;
  engine.apply([{ path: mutant.file, text: texts.get(mutant.file) as string }]);
  const lines = mutant.text.split('\n');
  const there = ({ file, range }: Finding): boolean =>
    file !== mutant.file || mutant.at === undefined || mutant.at.test(lines[range.start.line - 1] ?? '');
  const caught = found.some((finding) => finding.severity !== 'advice' && mutant.checks.includes(finding.check) && there(finding));
  const other = found.filter(
    ({ check, severity }) =>
      severity === 'error' && !mutant.checks.includes(check) && !mutant.along.includes(check) && !mutant.along.includes('*'),
  );
  if (caught && other.length === 0) return undefined;
  if (!caught && OF_THE_WALK.has(mutant.operator)) {
    const naive = naiveOn(report, mutant.file);
    if (naive.found.length === 0 && naive.gaveUp.length === 0) return NO_SLIP;
  }
  const said = found.filter(({ severity }) => severity !== 'advice').map(({ check, range }) => `${check}:${range.start.line}`);
  return `${caught ? 'brings others' : 'missed'}: ${mutant.file}: ${mutant.what} (${said.join(', ') || 'nothing'})`;
}

test('the sample library is sound to begin with', () => {
  expect(sound.counts.error + sound.counts.warning).toBe(0);
});

test(`${WANTED} mutants are drawn`, () => {
  expect([...chosen.values()].flat().length).toBe(WANTED);
});

describe('found by the check named for it', () => {
  for (const name of Object.keys(OPERATORS))
    test(name, () => {
      const mutants = chosen.get(name) ?? [];
      const judged = mutants.flatMap((mutant) => judge(mutant) ?? []);
      const faults = judged.filter((one) => one !== NO_SLIP);
      const meant = mutants.length - (judged.length - faults.length);
      table.push(`${name.padEnd(30)} ${meant - faults.length} of ${meant}, ${mutants.length - meant} more are no slip`);
      expect(meant).toBeGreaterThanOrEqual(8);
      expect((meant - faults.length) / meant, `seed ${seed}\n${faults.join('\n')}`).toBeGreaterThanOrEqual(LEAST);
    });
});
