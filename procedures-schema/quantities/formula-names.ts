/** Where the attributes of a model stand in the words of a formula, whether or not it can be worked out. What they are worth is formula.ts. */
import { type Attributes, attributeNamed } from './formula.ts';
import { numberAt } from './numbers.ts';
import { unitAt } from './units.ts';

/** `name` as in the attributes; offsets into the formula. */
export interface FormulaName {
  readonly name: string;
  readonly at: number;
  readonly end: number;
}

const WORDS = /[\p{L}][\p{L}\p{N}'-]*(?:\s+[\p{L}][\p{L}\p{N}'-]*)*/uy;

/** Left to right, the longest first, as the formula reads them. */
export function formulaNames(text: string, attributes: Attributes): readonly FormulaName[] {
  const out: FormulaName[] = [];
  for (let at = 0; at < text.length; ) {
    const number = numberAt(text, at, 'point') ?? numberAt(text, at, 'comma');
    if (number) {
      const blanks = /^\s*/.exec(text.slice(number.end))?.[0].length ?? 0;
      // What stands behind a number is its unit, also where an attribute is called the same.
      at = number.end + blanks + (unitAt(text, number.end + blanks)?.length ?? 0);
      continue;
    }
    WORDS.lastIndex = at;
    const words = WORDS.exec(text)?.[0];
    if (words === undefined) {
      at += 1;
      continue;
    }
    const ends = [...words.matchAll(/\S+/g)].map((word) => word.index + word[0].length);
    const found = ends.reverse().flatMap((length) => {
      const name = attributeNamed(words.slice(0, length).replace(/\s+/g, ' '), attributes);
      return name === undefined ? [] : [{ name, at, end: at + length }];
    })[0];
    if (found) out.push(found);
    at = found?.end ?? at + (ends.at(-1) ?? 1);
  }
  return out;
}
