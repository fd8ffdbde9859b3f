/** Entry of the worker that knows a dictionary. Its own thread, since a dictionary takes a second to read. Says which words it has not; judges nothing else. */
import nspell from 'nspell';
import aff from '../../node_modules/dictionary-en/index.aff?raw';
import dic from '../../node_modules/dictionary-en/index.dic?raw';
import { instead, isRight, type Judge } from './judging.ts';
import { type EnglishSpelling, spellingOf } from './variants.ts';

export type ToSpeller =
  /** `language`: of the library, "en-GB". */
  | { readonly id: number; readonly words: readonly string[]; readonly language: string; readonly known?: readonly string[] }
  | { readonly id: number; readonly suggest: string };
export type FromSpeller =
  | { readonly id: number; readonly wrong: readonly string[] }
  | { readonly id: number; readonly suggestions: readonly string[] };

const scope = globalThis as unknown as {
  postMessage(message: FromSpeller): void;
  onmessage: ((event: MessageEvent<ToSpeller>) => void) | null;
};
const dictionary = nspell(aff, dic);
const judged = new Map<string, boolean>();
const own = new Set<string>();
let spelling: EnglishSpelling = 'both';
const judge = (): Judge => ({ has: (word) => dictionary.correct(word), own: (word) => own.has(word), spelling });

scope.onmessage = ({ data }) => {
  if ('suggest' in data) {
    const suggestions = instead(data.suggest, dictionary.suggest(data.suggest), judge()).slice(0, 4);
    return scope.postMessage({ id: data.id, suggestions });
  }
  if (spellingOf(data.language) !== spelling) {
    spelling = spellingOf(data.language);
    judged.clear();
  }
  if (data.known) {
    for (const word of data.known) {
      dictionary.add(word);
      own.add(word);
    }
    judged.clear();
  }
  const right = (word: string): boolean => {
    const known = judged.get(word);
    if (known !== undefined) return known;
    const now = isRight(word, judge());
    judged.set(word, now);
    return now;
  };
  scope.postMessage({ id: data.id, wrong: data.words.filter((word) => !right(word)) });
};
