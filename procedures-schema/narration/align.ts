/**
 * Lays a script on a recording: where each passage is spoken and how sure that is. Tolerant of misheard words, takes read again, passages left out and
 * told in another order. Numbers of captions compare values and never name a step.
 */
import type { AlignedPassage, Alignment, HeardToken, Take } from './alignment-model.ts';
import { type Candidate, candidatesFor, type PassageWords } from './candidates.ts';
import type { CaptionFile } from './captions-model.ts';
import { bestChain } from './chain.ts';
import { layOn } from './fit.ts';
import { heardIn } from './heard.ts';
import { settled, withLeftovers } from './leftovers.ts';
import type { Script } from './model.ts';
import { namePrefixes, normalText, type Token } from './normal-words.ts';
import { grown, resplit } from './resplit.ts';
import { Vocabulary } from './vocabulary.ts';

/** Going back at most this far and reading on is a retake; further away it is a stray. */
const RETAKEN = 6;
/** One in so many takes between may be a mistaken one. */
const OUTLIERS = 4;
export function align(script: Script, file: CaptionFile): Alignment {
  const tokens = script.passages.map(({ spoken }) => normalText(spoken).tokens);
  const heard = heardIn(file, namePrefixes(tokens.flat()));
  const words = wordsOf(script, tokens, heard);
  const places = placesOf(words[0]?.heard ?? new Int32Array(0));
  const candidates = words.flatMap((one, passage) => candidatesFor(passage, one, places));
  const first = bestChain(
    candidates,
    words.map(({ loose }) => loose),
  );
  const whole = grown(resplit(withLeftovers(resplit(first, words), words), words), words);
  const strays = withRetakes(whole).flatMap(({ role }, index) => (role === 'stray' ? [index] : []));
  const chain = withRetakes(settled(whole, strays, words));
  const takes = chain.map(({ candidate, role }) => takeOf(candidate, role, words[candidate.passage] as PassageWords, heard));
  const passages = script.passages.map((passage, index): AlignedPassage => {
    const main = takes.find((take) => take.passage === index && take.role === 'main');
    return { passage, tokens: tokens[index] as readonly Token[], ...(main ? { main } : {}) };
  });
  return { script, heard, passages, takes, rest: restOf(takes, heard.length), seconds: Math.max(0, ...file.cues.map(({ end }) => end)) };
}

function wordsOf(script: Script, tokens: readonly (readonly Token[])[], heard: readonly HeardToken[]): readonly PassageWords[] {
  const vocabulary = new Vocabulary();
  const ids = tokens.map((passage) => passage.map((token) => vocabulary.idOf(token)));
  const heardIds = Int32Array.from(heard, (token) => vocabulary.idOf(token));
  const table = vocabulary.table(ids.flat());
  return ids.map((own, passage): PassageWords => {
    const gain = own.map((id) => vocabulary.gain[id] as number);
    return {
      ids: own,
      gain,
      most: gain.reduce((sum, one) => sum + one, 0),
      loss: own.map((id) => vocabulary.loss[id] as number),
      rows: own.map((id) => table.get(id) as Int8Array),
      heard: heardIds,
      loose: !/^(?:step|branch|notice)$/.test(script.passages[passage]?.kind ?? ''),
    };
  });
}

function placesOf(heard: Int32Array): ReadonlyMap<number, readonly number[]> {
  const out = new Map<number, number[]>();
  heard.forEach((id, at) => {
    const list = out.get(id);
    if (list) list.push(at);
    else out.set(id, [at]);
  });
  return out;
}

/** Which take of a passage is its own: the last of those read again on the spot, else the best. */
function withRetakes(chain: readonly Candidate[]): readonly { readonly candidate: Candidate; readonly role: Take['role'] }[] {
  const main = new Map<number, number>();
  chain.forEach((one, index) => {
    const held = main.get(one.passage);
    const rival = held === undefined ? undefined : (chain[held] as Candidate);
    if (
      rival === undefined ||
      (retaken(chain, held as number, index) ? one.score * 10 >= rival.score * 7 : better(chain, index, held as number))
    )
      main.set(one.passage, index);
  });
  return chain.map((candidate, index) => {
    const own = main.get(candidate.passage) as number;
    if (own === index) return { candidate, role: 'main' as const };
    const near = retaken(chain, Math.min(own, index), Math.max(own, index));
    return { candidate, role: near ? ('retake' as const) : ('stray' as const) };
  });
}

/** Hardly anything but neighbours was spoken between the two. */
function retaken(chain: readonly Candidate[], first: number, second: number): boolean {
  const passage = (chain[first] as Candidate).passage;
  const between = chain.slice(first + 1, second);
  const far = between.filter((one) => Math.abs(one.passage - passage) > RETAKEN).length;
  return between.length <= 2 * RETAKEN && far * OUTLIERS <= between.length + OUTLIERS / 2;
}

/** The one between its own neighbours wins; then the score. */
function better(chain: readonly Candidate[], one: number, other: number): boolean {
  const fits = (index: number): number => {
    const { passage } = chain[index] as Candidate;
    const [before, after] = [chain[index - 1]?.passage ?? -1, chain[index + 1]?.passage ?? passage + 1];
    return (before < passage && passage - before <= RETAKEN ? 1 : 0) + (after > passage && after - passage <= RETAKEN ? 1 : 0);
  };
  return fits(one) !== fits(other) ? fits(one) > fits(other) : (chain[one] as Candidate).score > (chain[other] as Candidate).score;
}

function takeOf({ passage, from, to, score }: Candidate, role: Take['role'], words: PassageWords, heard: readonly HeardToken[]): Take {
  return {
    passage,
    from,
    to,
    start: heard[from]?.start ?? 0,
    end: heard[to - 1]?.end ?? 0,
    confidence: Math.max(0, Math.round((score * 100) / words.most) / 100),
    laidOn: layOn(words, from, to),
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
