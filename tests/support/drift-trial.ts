/** Puts faults into recordings, aligns them and counts what was found: per kind of drift what was there, found, and found for nothing; and how far boundaries are off. */
import { align, DRIFT_KINDS, type Drift, type DriftKind, driftsOf, readVtt, type Script } from '../../procedures-schema/narration/index.ts';
import { drawn, randomFrom } from './random.ts';
import { type HearingOptions, type Recording, record, type Scene, scenesOf } from './recording.ts';

type Random = ReturnType<typeof randomFrom>;

/** What a film can get wrong; `hardly-heard` is no fault of a film. */
export const FAULTS = DRIFT_KINDS.filter((kind) => kind !== 'hardly-heard');

/** What was done to a recording: any finding of the kind that names one of the keys, or lies in the time of the scene, has found it. */
interface Fault {
  readonly kind: DriftKind;
  readonly keys: readonly string[];
  readonly scene?: Scene;
  /** Words that carry the fault: when these are misheard, the captions no longer hold it and nobody can find it in them. */
  readonly carrier?: readonly [passage: number, words: RegExp];
}

export interface Tally {
  /** Faults made. */
  readonly made: number;
  /** Of these, still in the captions. */
  readonly there: number;
  readonly found: number;
  readonly told: number;
  readonly right: number;
}

export interface Trial {
  readonly kinds: Readonly<Record<DriftKind, Tally>>;
  /** Seconds by which starts and ends of spoken passages are off, sorted. */
  readonly off: readonly number[];
  readonly misses: readonly string[];
}

export function trial(
  scripts: readonly Script[],
  strangers: readonly string[],
  films: number,
  hearing: HearingOptions,
  seed: number,
  /** How slow the voice is that speaks a script, as in `HearingOptions`. */
  slow: (script: Script) => number = () => 1,
): Trial {
  const random = randomFrom(seed);
  const kinds = Object.fromEntries(DRIFT_KINDS.map((kind) => [kind, { made: 0, there: 0, found: 0, told: 0, right: 0 }])) as Record<
    DriftKind,
    { -readonly [K in keyof Tally]: number }
  >;
  const off: number[] = [];
  const misses: string[] = [];
  for (const script of scripts)
    for (let film = 0; film < films; film += 1) {
      const { scenes, faults } = spoiled(script, strangers, random);
      const recording = record(scenes, { ...hearing, slow: slow(script) }, random);
      const file = readVtt(recording.captions);
      if (!file) throw new Error('the recording is no WebVTT');
      const alignment = align(script, file);
      off.push(...boundaries(recording, alignment.passages));
      const drifts = driftsOf(alignment);
      for (const fault of faults) {
        const tally = kinds[fault.kind];
        tally.made += 1;
        if (lost(fault, recording)) continue;
        tally.there += 1;
        if (drifts.some((drift) => hits(drift, fault, recording))) tally.found += 1;
        else
          misses.push(
            `film ${film} of ${script.number} missed ${fault.kind} ${fault.keys.join(', ')} ${fault.scene?.said ?? ''}\n${around(script, recording, fault.keys)}`,
          );
      }
      for (const drift of drifts)
        for (const one of apart(drift)) {
          // No fault of a film: what was hardly heard is told so that somebody listens.
          if (one.kind === 'hardly-heard') continue;
          kinds[one.kind].told += 1;
          if (faults.some((fault) => hits(one, fault, recording))) kinds[one.kind].right += 1;
          else
            misses.push(
              `film ${film} of ${script.number} for nothing: ${one.kind} ${one.passages.join(', ')}: ${one.message} ${one.actual ?? ''}\n${around(script, recording, one.passages, one.start)}`,
            );
        }
    }
  return { kinds, off: off.sort((a, b) => a - b), misses };
}

/** Several trials as one. */
export function joined(trials: readonly Trial[]): Trial {
  const sum = (kind: DriftKind, field: keyof Tally): number => trials.reduce((all, { kinds }) => all + kinds[kind][field], 0);
  const tally = (kind: DriftKind): Tally => ({
    made: sum(kind, 'made'),
    there: sum(kind, 'there'),
    found: sum(kind, 'found'),
    told: sum(kind, 'told'),
    right: sum(kind, 'right'),
  });
  return {
    kinds: Object.fromEntries(DRIFT_KINDS.map((kind) => [kind, tally(kind)])) as Record<DriftKind, Tally>,
    off: trials.flatMap(({ off }) => off).sort((a, b) => a - b),
    misses: trials.flatMap(({ misses }) => misses),
  };
}

/** What was written and what was heard about a place, a line each: so that a miss can be judged. */
function around(script: Script, { truth }: Recording, keys: readonly string[], start?: number): string {
  const named = script.passages.findIndex(({ key }) => key === keys[0]);
  const timed = truth.findIndex(({ end }) => start !== undefined && end >= start);
  const place = named === -1 ? timed : truth.findIndex(({ scene }) => scene.passage === named);
  const near = (place === -1 ? truth.findIndex(({ scene }) => (scene.passage ?? -1) > named) : place) - 2;
  return truth
    .slice(Math.max(0, near), near + 5)
    .map(
      ({ scene, heard }) =>
        `    ${scene.passage === undefined ? 'foreign' : (script.passages[scene.passage]?.key ?? '')}: ${scene.said}\n      -> ${heard}`,
    )
    .join('\n');
}

const lost = ({ carrier }: Fault, { truth }: Recording): boolean =>
  carrier !== undefined && !truth.some(({ scene, heard }) => scene.passage === carrier[0] && carrier[1].test(heard));

/** A run of steps not spoken counts each step. */
const apart = (drift: Drift): readonly Drift[] =>
  drift.kind === 'not-spoken' ? drift.passages.map((key) => ({ ...drift, passages: [key] })) : [drift];

function hits(drift: Drift, fault: Fault, { truth }: Recording): boolean {
  if (drift.kind !== fault.kind) return false;
  if (fault.scene === undefined) return drift.passages.some((key) => fault.keys.includes(key));
  const place = truth.find(({ scene }) => scene === fault.scene);
  return place !== undefined && (drift.start ?? 0) < place.end && (drift.end ?? 0) > place.start;
}

function boundaries({ truth }: Recording, passages: ReturnType<typeof align>['passages']): number[] {
  return passages.flatMap(({ main }, index) => {
    if (!main) return [];
    const real = truth.filter(({ scene }) => scene.passage === index);
    if (real.length === 0) return [];
    // Of a passage read twice either time is its own.
    const nearest = real.reduce((a, b) => (Math.abs(a.start - main.start) <= Math.abs(b.start - main.start) ? a : b));
    return [Math.abs(nearest.start - main.start), Math.abs(nearest.end - main.end)];
  });
}

/** One fault of each of five kinds where the script has a place for it, and two retakes, which are no fault. */
function spoiled(script: Script, strangers: readonly string[], random: Random): { scenes: Scene[]; faults: Fault[] } {
  let scenes = scenesOf(script, random);
  const faults: Fault[] = [];
  const touched = new Set<number>();
  const kindOf = (index: number): string => script.passages[index]?.kind ?? '';
  const free = (index: number): boolean => [-1, 0, 1, 2].every((by) => !touched.has(index + by));
  const touch = (index: number): void => {
    for (const by of [-1, 0, 1]) touched.add(index + by);
  };
  const key = (index: number): string => script.passages[index]?.key ?? '';
  const pick = (fits: (index: number) => boolean): number | undefined => {
    const all = script.passages.map((_, index) => index).filter((index) => free(index) && fits(index));
    return all.length === 0 ? undefined : all[random(all.length)];
  };
  const at = (passage: number): number => scenes.findIndex((scene) => scene.passage === passage);
  const reread = (passage: number, said: string): void => {
    scenes = scenes.map((scene) => (scene.passage === passage ? { ...scene, said } : scene));
  };
  const guarded = (index: number): boolean => kindOf(index - 1) === 'notice';

  const SPOIL: Readonly<Partial<Record<DriftKind, () => void>>> = {
    'not-spoken': () => {
      const one = pick((index) => /step|branch/.test(kindOf(index)) && !guarded(index));
      if (one === undefined) return;
      touch(one);
      scenes = scenes.filter(({ passage }) => passage !== one);
      faults.push({ kind: 'not-spoken', keys: [key(one)] });
    },
    'notice-missing': () => {
      const one = pick((index) => kindOf(index) === 'notice');
      if (one === undefined) return;
      touch(one);
      scenes = scenes.filter(({ passage }) => passage !== one);
      faults.push({ kind: 'notice-missing', keys: [key(one)] });
    },
    'notice-late': () => {
      const one = pick((index) => kindOf(index) === 'notice' && kindOf(index + 1) === 'step');
      if (one === undefined) return;
      touch(one);
      const [moved] = scenes.splice(at(one), 1);
      scenes.splice(at(one + 1) + 1, 0, moved as Scene);
      faults.push({ kind: 'notice-late', keys: [key(one)] });
    },
    'other-order': () => {
      const by = 1 + random(4);
      const steps = (index: number): boolean => kindOf(index) === 'step' && script.passages[index]?.wait === 0;
      const one = pick((index) => Array.from({ length: by + 1 }, (_, n) => index + n).every((next) => steps(next) && free(next)));
      if (one === undefined) return;
      const passed = Array.from({ length: by + 1 }, (_, n) => one + n);
      for (const index of passed) touch(index);
      const [moved] = scenes.splice(at(one), 1);
      scenes.splice(at(one + by) + 1, 0, moved as Scene);
      faults.push({ kind: 'other-order', keys: by === 1 ? passed.map(key) : [key(one)] });
    },
    'other-value': () => {
      const VALUE = /(\d+(?:\.\d+)?)(?= (?:N·m|mm|bar|°C|s|min|kg|V|m)\b)/;
      const one = pick((index) => /step|branch|notice/.test(kindOf(index)) && VALUE.test(script.passages[index]?.said ?? ''));
      if (one === undefined) return;
      touch(one);
      const value = Math.round((Number(VALUE.exec(script.passages[one]?.said ?? '')?.[0]) + 1 + random(9)) * 1000) / 1000;
      reread(one, (script.passages[one]?.said ?? '').replace(VALUE, String(value)));
      faults.push({ kind: 'other-value', keys: [key(one)], carrier: [one, new RegExp(`(?:^| )${value}(?: |$)`)] });
    },
    'other-unit': () => {
      // [written, heard] of the unit put in its place.
      const OTHER: Readonly<Record<string, readonly [string, RegExp]>> = {
        N·m: ['lbf·ft', /\d pound force (?:feet|foot)/],
        mm: ['in', /\d inch/],
        bar: ['psi', /\d pounds? per square inch/],
        '°C': ['°F', /\d degrees? fahrenheit/],
        s: ['min', /\d minutes?\b/],
        min: ['s', /\d seconds?\b/],
        kg: ['lb', /\d pounds?\b/],
        m: ['ft', /\d (?:feet|foot)\b/],
      };
      const UNIT = /(?<=[1-9]\d*(?:\.\d+)? )(?:N·m|mm|bar|°C|s|min|kg|m)(?![\w·])/;
      const one = pick((index) => /step|branch|notice/.test(kindOf(index)) && UNIT.test(script.passages[index]?.said ?? ''));
      if (one === undefined) return;
      touch(one);
      const [written, heard] = OTHER[UNIT.exec(script.passages[one]?.said ?? '')?.[0] ?? ''] as readonly [string, RegExp];
      reread(one, (script.passages[one]?.said ?? '').replace(UNIT, written));
      faults.push({ kind: 'other-unit', keys: [key(one)], carrier: [one, heard] });
    },
    'model-not-said': () => {
      const CLAUSE = /^(?:For|On) [^,:]*, /;
      const one = pick((index) => (script.passages[index]?.models.length ?? 0) > 0 && CLAUSE.test(script.passages[index]?.said ?? ''));
      if (one === undefined) return;
      touch(one);
      reread(
        one,
        (script.passages[one]?.said ?? '').replace(CLAUSE, '').replace(/^./, (letter) => letter.toUpperCase()),
      );
      faults.push({ kind: 'model-not-said', keys: [key(one)] });
    },
    'wait-short': () => {
      const one = pick((index) => (script.passages[index]?.wait ?? 0) > 12);
      if (one === undefined) return;
      touch(one);
      scenes = scenes.map((scene) => (scene.passage === one ? { ...scene, pause: 1 } : scene));
      faults.push({ kind: 'wait-short', keys: [key(one)] });
    },
    'not-in-text': () => {
      const one = pick((index) => /step/.test(kindOf(index)));
      if (one === undefined) return;
      touch(one);
      const scene: Scene = { said: strangers[random(strangers.length)] as string, pause: 1 };
      scenes.splice(at(one) + 1, 0, scene);
      faults.push({ kind: 'not-in-text', keys: [], scene });
    },
  };
  for (const kind of drawn(FAULTS, 5, random)) SPOIL[kind]?.();
  for (let n = 0; n < 2; n += 1) {
    const length = 1 + random(3);
    const one = pick((index) =>
      Array.from({ length }, (_, k) => index + k).every(
        (next) => /step|branch/.test(kindOf(next)) && free(next) && script.passages[next]?.wait === 0,
      ),
    );
    if (one === undefined) continue;
    for (let k = 0; k < length; k += 1) touch(one + k);
    const again = scenes.slice(at(one), at(one) + length);
    scenes.splice(at(one) + length, 0, ...again.map((scene) => ({ ...scene })));
  }
  return { scenes, faults };
}
