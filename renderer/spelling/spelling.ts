/** The page's side of the dictionary: begun when there is time, asked for a file's words, and once for what to write instead of one. */
import { core } from '../state/workspace.ts';
import type { FromSpeller, ToSpeller } from './spell-worker.ts';

export interface Misspelt {
  readonly word: string;
  readonly start: number;
  readonly end: number;
}

let worker: Worker | undefined;
let count = 0;
let told = '';
const waiting = new Map<number, (answer: FromSpeller) => void>();

function ask(question: Omit<Extract<ToSpeller, { words: unknown }>, 'id'> | { readonly suggest: string }): Promise<FromSpeller> {
  worker ??= begin();
  count += 1;
  const id = count;
  return new Promise((resolve) => {
    waiting.set(id, resolve);
    worker?.postMessage({ id, ...question });
  });
}

function begin(): Worker {
  const made = new Worker(new URL('./spell-worker.ts', import.meta.url), { type: 'module', name: 'spelling' });
  made.onmessage = ({ data }: MessageEvent<FromSpeller>) => {
    waiting.get(data.id)?.(data);
    waiting.delete(data.id);
  };
  return made;
}

/** Words of running text that neither the dictionary nor the library has. Undefined: not a procedure, or not a language with a dictionary. */
export async function misspelt(file: string): Promise<readonly Misspelt[] | undefined> {
  const found = await core.ask('spelling', { file, told });
  if (!found) return undefined;
  if (found.known) told = found.version;
  const answer = await ask({
    words: [...new Set(found.words.map(({ word }) => word))],
    language: found.language,
    ...(found.known ? { known: found.known } : {}),
  });
  const wrong = new Set('wrong' in answer ? answer.wrong : []);
  return found.words.filter(({ word }) => wrong.has(word)).map(({ word, span }) => ({ word, start: span.start, end: span.end }));
}

export async function suggestions(word: string): Promise<readonly string[]> {
  const answer = await ask({ suggest: word });
  return 'suggestions' in answer ? answer.suggestions : [];
}
