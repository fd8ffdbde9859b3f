/** What a branch begins with in the language that texts are read in, by its lexicon. Not in that of whoever writes: a page in another language writes the same text. */
import type { ReadingContext } from './context.ts';
import { english } from './lexicon/en/english.ts';
import type { Lexicon } from './lexicon/lexicon.ts';

const LEXICONS: Readonly<Record<ReadingContext['language'], Lexicon>> = { en: english };

/** Of every text: there is one lexicon so far. */
export const READ_LANGUAGE: ReadingContext['language'] = 'en';

const { conditions } = LEXICONS[READ_LANGUAGE];
const longestFirst = Object.keys(conditions).sort((a, b) => b.length - a.length);
const own = Object.keys(conditions).find((word) => conditions[word] === 'if') ?? '';

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "If" */
export const BRANCH_WORD = capital(own);

/** "it is bent" and "if it is bent" become "If it is bent"; a condition that begins otherwise keeps its own word. */
export function branchCondition(typed: string): string {
  const text = typed.trim();
  const first = longestFirst.find((word) => text.toLowerCase().startsWith(`${word} `));
  return first === undefined ? `${BRANCH_WORD} ${text}` : capital(text);
}
