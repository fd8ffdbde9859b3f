/**
 * The naive checker walks the sample library as it was read, every procedure and visit on every machine: it finds nothing, as the proof
 * does, and it finds what a slip in a procedure or between two of a visit does. So its silence on a slip says something.
 */
import { expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { naiveOn } from '../support/naive-library.ts';
import { sample } from '../support/sample.ts';

const LONG = { timeout: 240_000 };

test('nothing is wrong in the sample library by the naive checker either', LONG, async () => {
  const { report } = await sample();
  for (const { file } of report.facts.procedures) expect(naiveOn(report, file), file).toEqual({ found: [], gaveUp: [] });
});

const SLIPS: readonly (readonly [string, string, RegExp, string, string])[] = [
  ['a return test left out', 'OM-2130', /Do the interlock test: .*/, 'Look at the baler.', 'E-return-test gate switch'],
  ['a meter that is not read', 'OM-1120', /Measure between each pair of wires .*/, 'Look at the fan.', 'H-proved drive link'],
  ['a debt of a visit', 'OM-4120', /\{#cover\} Refit the \[rear cover\]\./, '{#cover} Look at the press.', 'E-cover rear cover'],
];

test.each(SLIPS)('%s is found by the naive checker', LONG, async (_, number, words, by, rule) => {
  const { texts, paths } = await sample();
  const at = texts.findIndex(({ path }) => path.includes(number));
  const { path, text } = texts[at] as (typeof texts)[number];
  expect(text).toMatch(words);
  const report = checkLibrary(
    texts.map((one) => (one.path === path ? { path, text: text.replace(words, by) } : one)),
    paths,
  );
  expect(naiveOn(report, path).found).toContain(rule);
});
