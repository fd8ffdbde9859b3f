/** The estimate of speaking time against a voice whose times are known: espeak-ng reads whole sample procedures, and its clips are measured. */
import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { speechSeconds } from '../../../procedures-schema/narration/index.ts';
import { sampleScript } from '../../support/narration.ts';
import { hasTool } from '../../support/tools.ts';

/** Seconds of sound of a WAV file from espeak-ng: 16 bits, one channel, 22,050 Hz, a head of 44 bytes whose lengths are not filled in on a pipe. */
function spokenSeconds(text: string, pace: number): number {
  const { stdout } = spawnSync('espeak-ng', ['-v', 'en-gb', '-s', String(pace), '--stdout', text], { maxBuffer: 1 << 28 });
  const rate = stdout.readUInt32LE(24);
  return (stdout.length - 44) / 2 / rate;
}

describe.skipIf(!hasTool('espeak-ng'))('espeak-ng reads', () => {
  test.each([
    ['OM-1120', 120],
    ['OM-2120', 140],
    ['OM-3140', 140],
    ['OM-4130', 160],
    ['OM-5120', 140],
    ['OM-6110', 180],
  ])(
    '%s at %d words a minute: the estimate is within 15 percent',
    async (number, pace) => {
      const script = await sampleScript(number);
      // By section, so that the command line stays short; silences at their ends belong to the reading.
      const texts = script.passages.map(({ spoken }) => spoken);
      let real = 0;
      for (let at = 0; at < texts.length; at += 12) real += spokenSeconds(texts.slice(at, at + 12).join(' '), pace);
      const estimated = texts.reduce((sum, text) => sum + speechSeconds(text, pace), 0);
      console.log(
        `${number} at ${pace}: spoken ${real.toFixed(0)} s, estimated ${estimated.toFixed(0)} s (${((100 * estimated) / real - 100).toFixed(1)}%)`,
      );
      expect(estimated / real).toBeGreaterThan(0.85);
      expect(estimated / real).toBeLessThan(1.15);
    },
    60_000,
  );
});
