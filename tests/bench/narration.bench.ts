/**
 * `npm run bench:narration`: what it costs to align a 60-minute recording with a 200-step procedure and to find its drift, as a ratio to reading the caption
 * file in the same run. Ratios travel between machines; the figures beside them do not. Prints; judges nothing.
 */
import { checkLibrary } from '../../procedures-schema/index.ts';
import { align, driftsOf, readCaptions, scriptOf } from '../../procedures-schema/narration/index.ts';
import { GENERATED_REGISTERS, generateProcedure } from '../support/generate.ts';
import { randomFrom } from '../support/random.ts';
import { record, scenesOf } from '../support/recording.ts';

const STEPS = 200;
const MINUTES = 60;

const files = [...GENERATED_REGISTERS, generateProcedure(1, 120)];
const { facts: library } = checkLibrary(files);
const [facts] = library.procedures;
if (!facts) throw new Error('no procedure');
const whole = scriptOf(facts, library);
const last = whole.passages.flatMap(({ kind }, index) => (kind === 'step' ? [index] : []))[STEPS - 1];
if (last === undefined) throw new Error(`fewer than ${STEPS} steps`);
const script = { ...whole, passages: whole.passages.slice(0, last + 1) };
const random = randomFrom(5);
const scenes = scenesOf(script, random).map((scene) => ({ ...scene, pause: Math.min(scene.pause, 4) }));
const once = record(scenes, { errors: 0.15 }, random).truth.at(-1)?.end ?? 1;
// Takes read again fill the hour: more words to align, as in a real first recording.
const filled = scenes.flatMap((scene, index) =>
  index % Math.max(1, Math.round(1 / Math.max(0.01, (MINUTES * 60) / once - 1))) === 0 ? [scene, scene] : [scene],
);
const stretch = Math.max(0, (MINUTES * 60 - (record(filled, { errors: 0.15 }, randomFrom(6)).truth.at(-1)?.end ?? 0)) / filled.length);
const { captions } = record(
  filled.map((scene) => ({ ...scene, pause: scene.pause + stretch })),
  { errors: 0.15 },
  randomFrom(6),
);
const file = readCaptions(captions);
if (!file) throw new Error('no captions');
const alignment = align(script, file);

const base = median(() => readCaptions(captions));
console.log(
  `${script.passages.length} passages (${STEPS} steps), ${alignment.heard.length} words in ${(alignment.seconds / 60).toFixed(0)} min of captions with 15 percent misheard; reading the file ${base.toFixed(1)} ms`,
);
for (const [what, work] of [
  ['alignment', () => align(script, file)],
  ['drift', () => driftsOf(alignment)],
] as const) {
  const own = median(work, 9);
  // On a busy machine the clock counts others' work too.
  const before = process.cpuUsage();
  for (let round = 0; round < 5; round += 1) work();
  const { user, system } = process.cpuUsage(before);
  console.log(
    `${what.padEnd(12)} ${own.toFixed(1).padStart(8)} ms (processor ${((user + system) / 5000).toFixed(1)} ms)   ${(own / base).toFixed(1)} times the reading of the file`,
  );
}

function median(work: () => unknown, rounds = 15): number {
  const times: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const start = performance.now();
    work();
    times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[rounds >> 1] ?? 0;
}
