/**
 * What a sentence that was not read may be about: which registered things it names or seems to name, and a few subjects by its words.
 * Decides no reading; it only says what must not be held against the text until the sentence is read.
 */
import type { Sentence } from './action.ts';
import { english } from './lexicon/en/english.ts';

export type Subject = 'lock' | 'tell' | 'people' | 'tools' | 'test' | 'wait' | 'meter';

export interface About {
  readonly subjects: ReadonlySet<Subject>;
  /** A thing by its registered name: named as such, or by its last word where the sentence has a name that nobody registered. */
  readonly names: (name: string) => boolean;
}

const KNOWN = new WeakMap<Sentence, About>();

export function aboutOf(sentence: Sentence): About {
  const known = KNOWN.get(sentence);
  if (known) return known;
  const text = sentence.text.toLowerCase();
  const words = new Set(text.split(/[^\p{L}\p{N}-]+/u));
  const subjects = new Set(
    (Object.keys(english.subjectWords) as Subject[]).filter((subject) => english.subjectWords[subject].some((word) => words.has(word))),
  );
  const named = new Set(sentence.mentions.map(({ thing }) => thing.name));
  const unknown = new Set(
    sentence.unknown.flatMap((one) => one.text.toLowerCase().split(/[^\p{L}\p{N}-]+/u)).filter((word) => word !== ''),
  );
  const same = (word: string): boolean => unknown.has(word) || unknown.has(word.replace(/s$/, '')) || unknown.has(`${word}s`);
  const names = (name: string): boolean => named.has(name) || (unknown.size > 0 && name.toLowerCase().split(' ').some(same));
  const made = { subjects, names };
  KNOWN.set(sentence, made);
  return made;
}
