/**
 * How long a passage takes: the voice by its syllables and pauses, the action by a table, the wait as written. Estimates, and called so wherever they
 * are shown; the times of a recording replace them.
 */
import { type DecimalMark, findQuantities, toNumber } from '../quantities/index.ts';
import type { Action, ActionKind, Sentence } from '../reading/index.ts';
import type { Seconds } from './model.ts';

/** Words a minute of a calm voice over pictures. Common practice, no source. */
export const USUAL_PACE = 140;
export const SLOWEST_PACE = 60;
export const FASTEST_PACE = 300;

/** A "word" of a pace is this many syllables. Ours; with it the estimates for whole sample procedures lie within 9 percent of espeak-ng (tests/unit/narration/pace.test.ts). */
const SYLLABLES_A_WORD = 1.55;
/** Silences, in words of the pace: they shrink and grow with the voice. */
const PAUSE = { comma: 0.4, stop: 1.1 } as const;

/** Seconds to say it. */
export function speechSeconds(spoken: string, pace: number): Seconds {
  const words = spoken.match(/[\p{L}\p{N}']+/gu) ?? [];
  const beats = words.reduce((sum, word) => sum + syllables(word), 0) / SYLLABLES_A_WORD;
  const commas = (spoken.match(/[,;:](?=\s)/g) ?? []).length * PAUSE.comma;
  const stops = (spoken.match(/[.!?](?=\s|$)/g) ?? []).length * PAUSE.stop;
  return ((beats + commas + stops) * 60) / pace;
}

/** Groups of vowels, silent endings left out; a single letter is its name, one beat ("W" three). */
export function syllables(word: string): number {
  const bare = word.toLowerCase().replace(/[^a-z]/g, '');
  if (bare.length < 2) return bare === 'w' ? 3 : 1;
  const groups = bare.replace(/(?:[^laeiouy]es|[^t]ed|[^aeioul]e)$/, '').match(/[aeiouy]+/g)?.length ?? 0;
  return Math.max(1, groups);
}

/** What doing it takes on a machine of a person's size, in seconds. Guesses of ours, to be replaced by a watch. No source. */
const ACTION_SECONDS: Readonly<Record<ActionKind, number>> = {
  'shut-down': 4,
  isolate: 6,
  lock: 15,
  tag: 8,
  relieve: 10,
  restrain: 12,
  'try-out': 6,
  prove: 12,
  control: 4,
  unlock: 12,
  untag: 5,
  restore: 6,
  unrelieve: 8,
  release: 10,
  start: 5,
  'test-run': 10,
  'make-energy': 20,
  open: 25,
  close: 25,
  renew: 60,
  loosen: 15,
  tighten: 20,
  adjust: 25,
  clean: 30,
  apply: 15,
  move: 12,
  handle: 12,
  measure: 25,
  sense: 12,
  observe: 6,
  'put-in': 12,
  'take-out': 10,
  use: 5,
  tell: 8,
  'clear-people': 10,
  'take-tools': 15,
  'stand-clear': 4,
  protect: 10,
  wait: 0,
  'go-to': 0,
  repeat: 0,
  reverse: 0,
  call: 0,
  'continue-with': 0,
  refer: 0,
  'stop-and-call': 5,
  end: 0,
  record: 10,
  'out-of-service': 8,
};
/** Each further one of the same ("the four screws"). */
const EACH_MORE = 0.4;

/** The actions of a passage one after the other, waits not counted. */
export function actionSeconds(actions: readonly Action[]): Seconds {
  return actions.reduce((sum, action) => {
    const count = action.things.reduce((most, { count: one }) => Math.max(most, one ?? 1), 1);
    return sum + ACTION_SECONDS[action.kind] * (1 + EACH_MORE * (count - 1));
  }, 0);
}

/** "Wait 10 min", "hold it for 5 s"; not "every 30 min", "within 1 s" or "below 5 min". */
const NO_WAIT = /\b(?:within|every|each|per|under|before|in|than|by|over)\s*(?:the (?:first|last)\s*)?$/i;

/** Seconds that orders tell the reader to wait or to keep something up. */
export function waitSeconds(sentences: readonly Pick<Sentence, 'actions' | 'text'>[], mark: DecimalMark): Seconds {
  let sum = 0;
  for (const { actions, text } of sentences) {
    if (actions.length === 0 || /^(?:if|unless)\b/i.test(text)) continue;
    for (const { quantity, at } of findQuantities(text, mark)) {
      const amount = quantity.nominal ?? quantity.lower;
      if (quantity.unit.kind === 'time' && amount && !NO_WAIT.test(text.slice(0, at)))
        sum += toNumber(amount.value) * toNumber(quantity.unit.factor);
    }
  }
  return sum;
}
