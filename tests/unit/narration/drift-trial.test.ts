/**
 * How well drift is found: recordings of the sample procedures and of a library of other hands (tests/flow/prose), some of their steps put on one model
 * each, with faults put in; read at the pace of espeak-ng, captions with 0, 5, 15 and 30 percent of their words misheard. Prints figures; asserts at 15
 * percent what must hold of each kind. A fault whose own words were misheard is no longer in the captions and is counted apart ("made").
 * The prices of the alignment were set on sample recordings with seeds 1 to 12, and misses with 301 to 306 and 401 to 406 were mended after. Those here were used for
 * nothing. HANDSCLEAR_SEEDS=601,602,603 takes others.
 */
import { beforeAll, expect, test } from 'vitest';
import { readLibrary } from '../../../electron/host/files/index.ts';
import { checkLibrary } from '../../../procedures-schema/index.ts';
import { align, type DriftKind, driftsOf, readVtt, type Script, scriptOf } from '../../../procedures-schema/narration/index.ts';
import { conditioned } from '../../support/conditioned.ts';
import { FAULTS, joined, type Trial, trial } from '../../support/drift-trial.ts';
import { randomFrom } from '../../support/random.ts';
import { record, type Scene, scenesOf, usualSeconds } from '../../support/recording.ts';
import { hasTool } from '../../support/tools.ts';
import { voicedSeconds } from '../../support/voice.ts';

const SEEDS = (process.env.HANDSCLEAR_SEEDS ?? '211,212,213').split(',').map(Number);
/** Steps of a procedure that are put on one model. */
const CONDITIONED = 6;
const PACE = 140;
/** Cases that a kind must have before anything is said of it. */
const CASES = 40;

/** Sentences that no procedure here has. */
const STRANGERS = [
  'Lift the top tray out and rinse it under clear water.',
  'Pull the chain through the sprocket and hook the two ends together.',
  'Write the date and your name on the yellow card beside the door.',
  'Turn the hand wheel twice to the left so that the belt comes free.',
  'Blow the dust out of the filter housing from the inside to the outside.',
  'Slide the spacer over the long stud and push the washer on behind it.',
  'Spread the canvas over the table before the lamp is taken down.',
  'Drain the last of the coolant into the bucket and carry it outside.',
  'Count the teeth of the small gear and note the number on the sheet.',
  'Hang the sling from the beam and draw it tight with the ratchet.',
];

let samples: readonly Script[] = [];
let others: readonly Script[] = [];
const slowness = new Map<Script, number>();
beforeAll(async () => {
  samples = await scriptsIn('sample-procedures');
  others = await scriptsIn('tests/flow/prose');
  const voice = hasTool('espeak-ng');
  for (const script of voice ? [...samples, ...others] : [])
    slowness.set(script, voicedSeconds(script, PACE) / script.passages.reduce((sum, { said }) => sum + usualSeconds(said), 0));
  const all = [...slowness.values()].sort((a, b) => a - b);
  console.log(
    `seeds ${SEEDS.join(', ')}; ${samples.length} and ${others.length} procedures; ${voice ? `read by espeak-ng, ${(all[0] ?? 1).toFixed(2)} to ${(all.at(-1) ?? 1).toFixed(2)} times as slow as the usual voice` : 'no espeak-ng here: the usual voice'}`,
  );
}, 600_000);

async function scriptsIn(folder: string): Promise<readonly Script[]> {
  const { texts, paths } = await readLibrary(folder);
  const random = randomFrom(SEEDS[0] ?? 1);
  const files = texts.map(({ path, text }) => ({
    path,
    text: path.startsWith('procedures/') ? conditioned(text, CONDITIONED, random) : text,
  }));
  const { facts } = checkLibrary(files, paths);
  return facts.procedures.map((procedure) => scriptOf(procedure, facts));
}

const slow = (script: Script): number => slowness.get(script) ?? 1;
/** Of each seed `films` films of each sample procedure and one of each other. */
const recorded = (films: number, errors: number, seeds: readonly number[]): readonly [sample: Trial, other: Trial] => [
  joined(seeds.map((seed) => trial(samples, STRANGERS, films, { errors }, seed, slow))),
  joined(seeds.map((seed) => trial(others, STRANGERS, 1, { errors }, seed, slow))),
];

const share = (part: number, whole: number): string => (whole === 0 ? '-' : `${((100 * part) / whole).toFixed(1)}%`);

function printed(title: string, { kinds, off }: Trial): string {
  const at = (part: number): string => (off[Math.min(off.length - 1, Math.floor(off.length * part))] ?? 0).toFixed(2);
  const rows = FAULTS.map((kind) => {
    const { made, there, found, told, right } = kinds[kind];
    return `  ${kind.padEnd(15)} made ${String(made).padStart(3)}, still in the captions ${String(there).padStart(3)}: recall ${share(found, there).padStart(6)}; told ${String(told).padStart(3)}: precision ${share(right, told).padStart(6)}`;
  });
  return [`${title}: boundaries off by ${at(0.5)} s (median), ${at(0.95)} s (p95), ${off.length} of them`, ...rows].join('\n');
}

const recall = ({ kinds }: Trial, kind: DriftKind): number => kinds[kind].found / kinds[kind].there;
const precision = ({ kinds }: Trial, kind: DriftKind): number => kinds[kind].right / kinds[kind].told;

test('15 percent misheard: of each kind at least 95 percent are found, and at least 95 percent of what is told is so', () => {
  const [own, other] = recorded(3, 0.15, SEEDS);
  console.log(`${printed('15 percent, sample procedures', own)}\n${printed('15 percent, other procedures', other)}`);
  const all = joined([own, other]);
  console.log(`${printed('15 percent, all', all)}\n${all.misses.join('\n')}`);
  for (const kind of FAULTS) {
    expect(all.kinds[kind].there, `cases of ${kind}`).toBeGreaterThanOrEqual(CASES);
    expect(recall(all, kind), `recall of ${kind}`).toBeGreaterThanOrEqual(0.95);
    expect(precision(all, kind), `precision of ${kind}`).toBeGreaterThanOrEqual(0.95);
  }
  expect(all.off[all.off.length >> 1]).toBeLessThan(0.5);
  expect(all.off[Math.floor(all.off.length * 0.95)]).toBeLessThan(2);
}, 600_000);

test.each([
  [0, 0.99, 0.99, 2],
  [0.05, 0.97, 0.97, 2],
  [0.3, 0.88, 0.85, 6],
])(
  '%d of the words misheard, all kinds together',
  (errors, found, right, late) => {
    const all = joined(recorded(1, errors, SEEDS.slice(0, 1)));
    console.log(printed(`${errors * 100} percent`, all));
    const sum = (field: 'there' | 'found' | 'told' | 'right'): number => FAULTS.reduce((part, kind) => part + all.kinds[kind][field], 0);
    expect(sum('found') / sum('there')).toBeGreaterThanOrEqual(found);
    expect(sum('right') / sum('told')).toBeGreaterThanOrEqual(right);
    expect(all.off[all.off.length >> 1]).toBeLessThan(0.5);
    expect(all.off[Math.floor(all.off.length * 0.95)]).toBeLessThan(late);
  },
  600_000,
);

/** What is told of films without a fault but this, at 15 percent misheard; a line each. */
function toldOf(changed: (scenes: readonly Scene[], script: Script) => readonly Scene[]): string[] {
  const random = randomFrom(SEEDS[0] ?? 1);
  return samples.flatMap((script) => {
    const { captions } = record(changed(scenesOf(script, random), script), { errors: 0.15, slow: slow(script) }, random);
    const file = readVtt(captions);
    if (!file) throw new Error('the recording is no WebVTT');
    return driftsOf(align(script, file)).flatMap(({ kind, message }) =>
      kind === 'hardly-heard' ? [] : [`${kind} ${script.number}: ${message}`],
    );
  });
}

test('a film that follows its text, and one without a breath between two steps: nothing is told but waits', () => {
  expect(toldOf((scenes) => scenes)).toEqual([]);
  const breathless = toldOf((scenes) => scenes.map((scene) => ({ ...scene, pause: 0.02 })));
  expect(breathless.filter((one) => !one.startsWith('wait-short'))).toEqual([]);
}, 600_000);

test('two chapters filmed the other way round are told in each film, and little else is', () => {
  const told = toldOf((scenes, { passages }) => {
    const sectionOf = ({ passage }: Scene): string => passages[passage as number]?.section ?? '';
    const sections = [...new Set(passages.map(({ section }) => section))];
    const [first, second] = [sections.at(-3), sections.at(-2)];
    const at = scenes.findIndex((scene) => sectionOf(scene) === first);
    const after = scenes.findLastIndex((scene) => sectionOf(scene) === second) + 1;
    const of = (section: string | undefined): Scene[] => scenes.filter((scene) => sectionOf(scene) === section);
    return [...scenes.slice(0, at), ...of(second), ...of(first), ...scenes.slice(after)];
  });
  console.log(told.join('\n'));
  const moved = new Set(told.flatMap((one) => /^other-order (\S+):/.exec(one)?.[1] ?? []));
  expect([...moved].sort()).toEqual(samples.map(({ number }) => number).sort());
  // A run of moved steps is one finding; steps that stand word for word in another chapter too may be taken for those.
  expect(told.length).toBeLessThanOrEqual(samples.length * 1.5);
}, 600_000);

test('numbers misheard as other numbers cannot be told from other values: printed, not judged', () => {
  console.log(printed('15 percent, numerals too', trial(samples, STRANGERS, 1, { errors: 0.15, numerals: true }, SEEDS[0] ?? 1, slow)));
}, 600_000);
