/** A voice whose times are known: espeak-ng reads, and its sound is measured. */
import { spawnSync } from 'node:child_process';
import type { Script } from '../../procedures-schema/narration/index.ts';

/** Texts read in one go, so that the command line stays short; the silences at their ends belong to the reading. */
const AT_ONCE = 12;

/** Seconds of sound of all passages at a pace in words a minute. */
export function voicedSeconds({ passages }: Script, pace: number): number {
  const texts = passages.map(({ spoken }) => spoken);
  let seconds = 0;
  for (let at = 0; at < texts.length; at += AT_ONCE) seconds += spokenSeconds(texts.slice(at, at + AT_ONCE).join(' '), pace);
  return seconds;
}

/** A WAV file from espeak-ng: 16 bits, one channel, a head of 44 bytes whose lengths are not filled in on a pipe. */
function spokenSeconds(text: string, pace: number): number {
  const { stdout } = spawnSync('espeak-ng', ['-v', 'en-gb', '-s', String(pace), '--stdout', text], { maxBuffer: 1 << 28 });
  const rate = stdout.readUInt32LE(24);
  return (stdout.length - 44) / 2 / rate;
}
