/** Labels as people type them (F7): what they look like and what they count. What the label should be is numbering's. */
import type { TypedLabel } from './tree.ts';
import { isUnit } from './unit-words.ts';

export interface ReadLabel {
  readonly raw: string;
  /** Characters up to where the text begins, spaces included. */
  readonly length: number;
  readonly style: TypedLabel['style'];
  readonly ordinal?: number;
  readonly parents?: readonly number[];
}

/** a is 1, z is 26, aa is 27. */
export function letterOrdinal(letters: string): number {
  let n = 0;
  for (const c of letters.toLowerCase()) n = n * 26 + (c.charCodeAt(0) - 96);
  return n;
}

const ROMAN: Readonly<Record<string, number>> = { i: 1, v: 5, x: 10, l: 50, c: 100 };

function romanOrdinal(text: string): number | undefined {
  if (!/^(?=.)(?:xc|xl|l?x{0,3})(?:ix|iv|v?i{0,3})$/.test(text)) return undefined;
  let sum = 0;
  for (let at = 0; at < text.length; at++) {
    const here = ROMAN[text[at] ?? ''] ?? 0;
    sum += here < (ROMAN[text[at + 1] ?? ''] ?? 0) ? -here : here;
  }
  return sum;
}

/** The word after a decimal decides whether "3.5" is a step or a size. */
function nextWord(text: string): string {
  return /^\s*(\S*)/.exec(text)?.[1] ?? '';
}

/** A label that CommonMark does not know, at the start of `line`: "A.", "b)", "(c)", "Step 3:", "3.1", "ii)". */
export function readTypedLabel(line: string): ReadLabel | undefined {
  const first = line.charCodeAt(0);
  // Most lines start with none of these: leave at once.
  const letter = (first >= 65 && first <= 90) || (first >= 97 && first <= 122);
  const digit = first >= 48 && first <= 57;
  if (!letter && !digit && first !== 40) return undefined;

  if (letter) {
    const step = /^step[ \t\u00a0]+(?:(\d{1,3}(?:\.\d{1,3})*)|([a-z]))(?:[.:)]|[ \t]*[-–—])(?=\s|$)[ \t]*/i.exec(line);
    if (step) return step[1] ? numeral(step[0], step[1]) : letters(step[0], step[2] ?? '');
    const single = /^([A-Za-z])[.)](?=\s)[ \t]*/.exec(line);
    if (single) return letters(single[0], single[1] ?? '');
    const roman = /^([ivxlc]{2,6})[.)](?=\s)[ \t]*/.exec(line);
    const counted = roman ? romanOrdinal(roman[1] ?? '') : undefined;
    if (roman && counted !== undefined) return { raw: roman[0].trimEnd(), length: roman[0].length, style: 'roman', ordinal: counted };
    const double = /^(a[a-z])\)(?=\s)[ \t]*/.exec(line);
    return double ? letters(double[0], double[1] ?? '') : undefined;
  }
  if (digit) {
    const decimal = /^(\d{1,3}(?:\.\d{1,3}){1,4})[.)]?(?=\s)[ \t]*/.exec(line);
    if (!decimal) return undefined;
    const word = nextWord(line.slice(decimal[0].length));
    if (word === '' || isUnit(word)) return undefined;
    return numeral(decimal[0], decimal[1] ?? '');
  }
  const bracketed = /^\((?:([A-Za-z]|a[a-z])|(\d{1,3})|([ivxlc]{2,6}))\)(?=\s)[ \t]*/.exec(line);
  if (!bracketed) return undefined;
  if (bracketed[1]) return letters(bracketed[0], bracketed[1]);
  if (bracketed[2]) return numeral(bracketed[0], bracketed[2]);
  const counted = romanOrdinal(bracketed[3] ?? '');
  return counted === undefined ? undefined : { raw: bracketed[0].trimEnd(), length: bracketed[0].length, style: 'roman', ordinal: counted };
}

function letters(all: string, letter: string): ReadLabel {
  const style = letter >= 'A' && letter <= 'Z' ? 'capital' : 'letter';
  return { raw: all.trimEnd(), length: all.length, style, ordinal: letterOrdinal(letter) };
}

function numeral(all: string, number: string): ReadLabel {
  const parts = number.split('.').map(Number);
  const ordinal = parts.pop();
  const raw = all.trimEnd();
  if (parts.length === 0) return { raw, length: all.length, style: 'number', ...(ordinal === undefined ? {} : { ordinal }) };
  return { raw, length: all.length, style: 'decimal', ...(ordinal === undefined ? {} : { ordinal }), parents: parts };
}

/** A label CommonMark knows: "4." or "4)". */
export function readMarker(line: string): ReadLabel | undefined {
  const found = /^(\d{1,9})[.)](?=\s|$)[ \t]*/.exec(line);
  if (!found) return undefined;
  return { raw: found[0].trimEnd(), length: found[0].length, style: 'number', ordinal: Number(found[1]) };
}
