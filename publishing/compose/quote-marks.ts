/**
 * Straight quotation marks and apostrophes to those of the printed language, letter for letter. After a digit a straight mark stays: it may be inches,
 * feet or minutes. So does everything in code, and a mark that has no partner. Knows text only; where text stands in a book is typographic.ts.
 */

interface Marks {
  readonly double: readonly [string, string];
  readonly single: readonly [string, string];
}

const APOSTROPHE = '’';

/** By the first part of a name as BCP 47 writes it. A language that is not here keeps what was typed. */
const LANGUAGES: ReadonlyMap<string, Marks> = new Map(
  Object.entries({
    de: { double: ['„', '“'], single: ['‚', '‘'] },
    en: { double: ['“', '”'], single: ['‘', '’'] },
  } satisfies Record<string, Marks>),
);

export interface Stretch {
  readonly text: string;
  /** Printed as it was typed; its letters still count as neighbours. */
  readonly code?: boolean;
  /** Where it is not that of the paragraph: a pair has the marks of the language that it begins in. */
  readonly language?: string;
}

const isDigit = (letter: string | undefined): boolean => letter !== undefined && /\p{N}/u.test(letter);
const isLetter = (letter: string | undefined): boolean => letter !== undefined && /\p{L}/u.test(letter);
/** What may stand before a word that is put in marks. */
const beginsWord = (letter: string | undefined): boolean => letter === undefined || /[\s([{/\-–—"'“‘„‚]/.test(letter);
const isText = (letter: string | undefined): boolean => letter !== undefined && !/\s/.test(letter);

/** The stretches of one paragraph: a pair may begin in one and end in another. The same many, each as long as it was. */
export function quoteMarks(stretches: readonly Stretch[], language: string): readonly string[] {
  const typed = stretches.map(({ text }) => text);
  if (!typed.some((text) => text.includes('"') || text.includes("'"))) return typed;
  const joined = typed.join('');
  const letters = joined.split('');
  const pairs = {
    '"': { kind: 'double' as const, open: undefined as number | undefined, set: ['', ''] as readonly [string, string] },
    "'": { kind: 'single' as const, open: undefined as number | undefined, set: ['', ''] as readonly [string, string] },
  };
  let from = 0;
  for (const { text, code, language: own = language } of stretches) {
    const marks = LANGUAGES.get(own.toLowerCase().split('-')[0] ?? '');
    for (let at = from; !code && marks !== undefined && at < from + text.length; at += 1) {
      const letter = joined[at];
      if (letter !== '"' && letter !== "'") continue;
      const pair = pairs[letter];
      const [before, after] = [joined[at - 1], joined[at + 1]];
      // Two in a row are a writer's own device.
      if (before === letter || after === letter) pair.open = undefined;
      else if (letter === "'" && isLetter(before) && isLetter(after)) letters[at] = APOSTROPHE;
      else if (isDigit(before)) pair.open = undefined;
      else if (pair.open !== undefined && isText(before)) {
        letters[pair.open] = pair.set[0];
        letters[at] = pair.set[1];
        pair.open = undefined;
      } else if (beginsWord(before) && isText(after)) {
        pair.open = at;
        pair.set = marks[pair.kind];
      } else if (letter === "'" && isLetter(before)) letters[at] = APOSTROPHE;
    }
    from += text.length;
  }
  const out = letters.join('');
  from = 0;
  return typed.map((text) => {
    from += text.length;
    return out.slice(from - text.length, from);
  });
}
