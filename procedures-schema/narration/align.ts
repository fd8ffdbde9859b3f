/**
 * Lays a script on a recording: where each passage is spoken and how sure that is. Tolerant of misheard words, takes read again, passages left out and
 * told in another order. Numbers of captions compare values and never name a step.
 */
import type { AlignedPassage, Alignment, HeardToken, Take } from './alignment-model.ts';
import type { CaptionFile } from './captions-model.ts';
import { decode } from './decode.ts';
import { type LaidTake, laid } from './fit.ts';
import { heardIn } from './heard.ts';
import type { Script } from './model.ts';
import { namePrefixes, normalText, type Token } from './normal-words.ts';
import { type PassageWords, passageWords } from './passage-words.ts';
import { withRetakes } from './retakes.ts';
import { withTwins } from './twins.ts';

/** Seconds of silence that part two things said. */
const SILENCE = 0.4;
/** Share of the passages that must have silences before them, lest captions without any be judged by them. */
const BREATHING = 0.4;

export function align(script: Script, file: CaptionFile): Alignment {
  const tokens = script.passages.map(({ spoken }) => normalText(spoken).tokens);
  const heard = heardIn(file, namePrefixes(tokens.flat()), script.mark);
  const { words, ids } = passageWords(script, tokens, heard);
  const chain = decode(words, ids, pausesIn(heard, words.length)).map((one) => laid(one, words, ids));
  const takes = withRetakes(withTwins(chain, words, ids)).map(({ candidate, role }) => takeOf(candidate, role, words, heard));
  const passages = script.passages.map((passage, index): AlignedPassage => {
    const main = takes.find((take) => take.passage === index && take.role === 'main');
    return { passage, tokens: tokens[index] as readonly Token[], ...(main ? { main } : {}) };
  });
  return { script, heard, passages, takes, rest: restOf(takes, heard.length), seconds: Math.max(0, ...file.cues.map(({ end }) => end)) };
}

function pausesIn(heard: readonly HeardToken[], passages: number): readonly boolean[] {
  const found = heard.map(({ start }, at) => start - (heard[at - 1]?.end ?? Number.NEGATIVE_INFINITY) >= SILENCE);
  return found.filter(Boolean).length >= passages * BREATHING ? found : found.map(() => true);
}

function takeOf(
  { passage, from, to, score, laidOn }: LaidTake,
  role: Take['role'],
  words: readonly PassageWords[],
  heard: readonly HeardToken[],
): Take {
  return {
    passage,
    from,
    to,
    start: heard[from]?.start ?? 0,
    end: heard[to - 1]?.end ?? 0,
    confidence: Math.max(0, Math.round((score * 100) / (words[passage] as PassageWords).most) / 100),
    laidOn,
    role,
  };
}

function restOf(takes: readonly Take[], size: number): Alignment['rest'] {
  const out: { from: number; to: number }[] = [];
  let at = 0;
  for (const { from, to } of [...takes, { from: size, to: size }]) {
    if (from > at) out.push({ from: at, to: from });
    at = Math.max(at, to);
  }
  return out;
}
