/** Entry of the worker that knows a dictionary. Its own thread, since a dictionary takes a second to read. Says which words it has not; judges nothing else. */
import nspell from 'nspell';
import aff from '../../node_modules/dictionary-en/index.aff?raw';
import dic from '../../node_modules/dictionary-en/index.dic?raw';

export type ToSpeller =
  | { readonly id: number; readonly words: readonly string[]; readonly known?: readonly string[] }
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

scope.onmessage = ({ data }) => {
  if ('suggest' in data) return scope.postMessage({ id: data.id, suggestions: dictionary.suggest(data.suggest).slice(0, 4) });
  if (data.known) {
    for (const word of data.known) dictionary.add(word);
    judged.clear();
  }
  const right = (word: string): boolean => {
    const known = judged.get(word);
    if (known !== undefined) return known;
    const now = dictionary.correct(word) || dictionary.correct(word.replace(/’/g, "'"));
    judged.set(word, now);
    return now;
  };
  scope.postMessage({ id: data.id, wrong: data.words.filter((word) => !right(word)) });
};
