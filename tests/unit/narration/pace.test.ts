/** The estimate of speaking time against a voice whose times are known: espeak-ng reads every sample procedure, each at one of four paces. */
import { beforeAll, describe, expect, test } from 'vitest';
import { type Script, scriptOf, speechSeconds } from '../../../procedures-schema/narration/index.ts';
import { sample } from '../../support/sample.ts';
import { hasTool } from '../../support/tools.ts';
import { voicedSeconds } from '../../support/voice.ts';

const PACES = [120, 140, 160, 180] as const;
/** Sample procedures; a test below keeps the list whole. */
const NUMBERS =
  'OM-1110 OM-1120 OM-1130 OM-2110 OM-2120 OM-2130 OM-3140 OM-3150 OM-3160 OM-4110 OM-4120 OM-4130 OM-4140 OM-4190 OM-5110 OM-5120 OM-5130 OM-6110 OM-6120'.split(
    ' ',
  );

const scripts = new Map<string, Script>();
beforeAll(async () => {
  const { report } = await sample();
  for (const facts of report.facts.procedures) scripts.set(facts.head.id, scriptOf(facts, report.facts));
}, 120_000);

test('every sample procedure is read', () => expect([...scripts.keys()].sort()).toEqual(NUMBERS));

describe.skipIf(!hasTool('espeak-ng'))('espeak-ng reads', () => {
  test.each(NUMBERS.map((number, index) => [number, PACES[index % PACES.length] as number] as const))(
    '%s at %d words a minute: the estimate is within 15 percent',
    (number, pace) => {
      const script = scripts.get(number) as Script;
      const real = voicedSeconds(script, pace);
      const estimated = script.passages.reduce((sum, { spoken }) => sum + speechSeconds(spoken, pace), 0);
      console.log(
        `${number} at ${pace}: spoken ${real.toFixed(0)} s, estimated ${estimated.toFixed(0)} s (${((100 * estimated) / real - 100).toFixed(1)}%)`,
      );
      expect(estimated / real).toBeGreaterThan(0.85);
      expect(estimated / real).toBeLessThan(1.15);
    },
    120_000,
  );
});
