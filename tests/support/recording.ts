/** Makes recordings: a script read scene by scene with word times that are known, heard by a machine that mishears, as a caption file. */
import { normalText, type Passage, type Script, spokenWords, writeVtt } from '../../procedures-schema/narration/index.ts';
import type { randomFrom } from './random.ts';

type Random = ReturnType<typeof randomFrom>;

export interface Scene {
  /** Index of the passage; undefined: something the script does not have. */
  readonly passage?: number;
  /** What is read, where it is not what the script has. */
  readonly said: string;
  /** Silence after it in seconds. */
  readonly pause: number;
}

export interface HearingOptions {
  /** Share of words heard wrongly: seven in ten by another word, the rest lost or invented. */
  readonly errors: number;
  /** A misheard number may be heard as another number. */
  readonly numerals?: boolean;
  /** Times as slow as the usual voice of `usualSeconds`; 1 if not given. */
  readonly slow?: number;
}

export interface Recording {
  readonly captions: string;
  /** When each scene is really spoken, in seconds. */
  readonly truth: readonly {
    readonly scene: Scene;
    readonly start: number;
    readonly end: number /** What the machine wrote. */;
    readonly heard: string;
  }[];
}

/** Every passage in order, waits in full. */
export const scenesOf = (script: Script, random: Random): Scene[] =>
  script.passages.map((passage, index) => ({ passage: index, said: passage.said, pause: passage.wait + pauseAfter(passage, random) }));

const pauseAfter = (passage: Passage, random: Random): number => (passage.kind === 'section' ? 0.6 : 0.3 + random(25) / 10);

/** What a machine hears besides the words of the text. */
const OTHERS =
  'about above again air along always another back be before better book bring call can case clear close come could down each end every few find first get give go good great hand have head here high home house keep kind know large last late left light line little long look low make many mean might more most move much name near need new next night not number old only open other over own page part place plan point right run same say see seem set show side small some stand start state stay still such table take talk tell than thing think time today top try turn under use very walk want water way week well went what when where which while white whole why will wish work world year yes'.split(
    ' ',
  );

/** A misheard word is no number and no unit, unless numerals are to be misheard too. */
const NUMBER_WORD =
  /^(?:zero|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|thousand|half|quarters?|point|minus|\w*met(?:re|er)s?|\w*lit(?:re|er)s?|seconds?|minutes?|hours?|days?|inch(?:es)?|feet|foot|newtons?|bar|pounds?|volts?|ohms?|degrees|\w*grams?)$/i;

interface TimedWord {
  readonly word: string;
  readonly start: number;
  readonly end: number;
}

export function record(scenes: readonly Scene[], { errors, numerals = false, slow = 1 }: HearingOptions, random: Random): Recording {
  const own = [...new Set(scenes.flatMap(({ said }) => spokenWords(said)))].filter((word) => word.length > 3 && !NUMBER_WORD.test(word));
  const truth: { scene: Scene; start: number; end: number; heard: string }[] = [];
  const heard: TimedWord[] = [];
  let at = 0.5 + random(20) / 10;
  for (const scene of scenes) {
    const start = at;
    const before = heard.length;
    for (const word of machineWords(scene.said)) {
      const length = slow * (0.09 + 0.055 * word.length * (0.8 + random(40) / 100));
      const spoken = { word, start: at, end: at + length };
      at += length + (random(12) === 0 ? 0.25 : 0.02);
      if (random(10_000) >= errors * 10_000) heard.push(spoken);
      else heard.push(...misheard(spoken, own, numerals, random));
    }
    truth.push({
      scene,
      start,
      end: at,
      heard: heard
        .slice(before)
        .map(({ word }) => word)
        .join(' '),
    });
    at += scene.pause;
  }
  return { captions: writeVtt(cuesOf(heard)), truth };
}

/** What a voice that is neither quick nor slow takes for a text, in seconds: the mean of what `record` draws. */
export const usualSeconds = (said: string): number => machineWords(said).reduce((sum, word) => sum + 0.13 + 0.055 * word.length, 0);

/** Words as machines write them: numbers in figures, units in words, lower case. */
function machineWords(said: string): string[] {
  const { words, tokens } = normalText(said);
  return tokens.flatMap(({ kind, key, at, end }) => {
    if (kind === 'number') return [key.slice(1)];
    if (kind === 'label') return [key.slice(5)];
    if (kind === 'name') return [key.slice(1).replace(/^[a-z]+/, (letters) => `${letters.toUpperCase()}-`)];
    return words.slice(at, end).map((word) => word.toLowerCase().replace('metre', 'meter').replace('litre', 'liter'));
  });
}

function misheard({ word, start, end }: TimedWord, own: readonly string[], numerals: boolean, random: Random): TimedWord[] {
  const other = (): string =>
    (random(10) < 3 ? (own[random(own.length)] as string) : (OTHERS[random(OTHERS.length)] as string)).toLowerCase();
  const kind = random(20);
  if (kind < 3) return [];
  if (kind < 6)
    return [
      { word: other(), start, end: (start + end) / 2 },
      { word, start: (start + end) / 2, end },
    ];
  if (/^[\d.]+$/.test(word) && numerals) return [{ word: String(random(100)), start, end }];
  return [{ word: random(3) === 0 ? blurred(word, random) : other(), start, end }];
}

/** A vowel heard as another, or the end swallowed. */
function blurred(word: string, random: Random): string {
  const at = word.search(/[aeiou]/);
  if (word.length > 5 && random(2) === 0) return word.slice(0, -2);
  return at === -1 || /\d/.test(word) ? 'so' : word.slice(0, at) + ('aeiou'[random(5)] as string) + word.slice(at + 1);
}

/** Seven words or a silence end a cue, as machines cut them. */
function cuesOf(words: readonly TimedWord[]): { start: number; end: number; text: string }[] {
  const cues: { start: number; end: number; text: string; count: number }[] = [];
  for (const { word, start, end } of words) {
    const last = cues.at(-1);
    if (last && last.count < 7 && start - last.end < 0.7) {
      last.text += ` ${word}`;
      last.end = end;
      last.count += 1;
    } else cues.push({ start, end, text: word, count: 1 });
  }
  return cues;
}
