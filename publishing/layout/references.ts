/** What passes of the layout learn about references: digits kept for a page number, and which references need one. Grows only, so it settles. */

import type { PlacedBook } from './layout-book.ts';
import { numberPages } from './page-numbers.ts';

export interface References {
  /** What room was kept for at the page number of each anchor: widest digits, or the letters of a roman numeral. */
  readonly forms: Map<string, readonly string[]>;
  /** What was taken for each anchor's page number before it was known. */
  readonly guessed: Map<string, Set<string>>;
  /** References that name a page only where they leave their own, as met. */
  readonly asked: Map<string, { readonly near: string; readonly anchor: string }>;
  readonly away: Set<string>;
  /** Of those, whose page was left out again for once; and those that this sent to another page: with their number they stand where they lead to. */
  readonly tried: Set<string>;
  readonly settled: Set<string>;
  /** Page index of each anchor in the pass before. */
  before: ReadonlyMap<string, number>;
}

/** Texts whose widest is the room to keep. `guess` is taken until the page is known: as many digits as the pages before it have. */
export function formsOf(known: References, anchor: string, guess: string): readonly string[] {
  const forms = known.forms.get(anchor);
  if (forms !== undefined) return forms;
  const guessed = known.guessed.get(anchor);
  if (guessed === undefined) known.guessed.set(anchor, new Set([guess]));
  else guessed.add(guess);
  return [guess];
}

export const newReferences = (): References => ({
  forms: new Map(),
  guessed: new Map(),
  asked: new Map(),
  away: new Set(),
  tried: new Set(),
  settled: new Set(),
  before: new Map(),
});

/** In an earlier state of the book what they lead to was on another page; true when there are any. */
export function forgetNear(known: References, laid: PlacedBook): boolean {
  const back = [...known.away].filter((pair) => {
    const asked = known.asked.get(pair);
    return !known.settled.has(pair) && asked !== undefined && laid.anchors.get(asked.near) === laid.anchors.get(asked.anchor);
  });
  for (const pair of back) {
    known.away.delete(pair);
    known.tried.add(pair);
  }
  return back.length > 0;
}

/**
 * Takes in where things came to stand; true when something needs more room than it was given. An index names every page once, and a range
 * of one page is one number: a book that `asks` wants to know the pages of the pass before, so it is not settled while any moved.
 */
export function widen(known: References, laid: PlacedBook, asks: boolean): boolean {
  const numbers = numberPages(laid.pages, laid.book);
  let widened = asks && [...laid.anchors].some(([anchor, page]) => known.before.get(anchor) !== page);
  known.before = laid.anchors;
  const forms = numbers.map(({ shown }) => shown.replace(/\d/g, '8'));
  laid.anchors.forEach((page, anchor) => {
    const form = forms[page] ?? '';
    const kept = known.forms.get(anchor);
    if (form === '' || kept?.includes(form)) return;
    known.forms.set(anchor, kept === undefined ? [form] : [...kept, form]);
    const guessed = known.guessed.get(anchor);
    if (kept !== undefined || (guessed !== undefined && (guessed.size > 1 || !guessed.has(form)))) widened = true;
  });
  for (const [pair, { near, anchor }] of known.asked) {
    const here = laid.anchors.get(near);
    const there = laid.anchors.get(anchor);
    if (here === undefined || there === undefined || here === there || known.away.has(pair)) continue;
    known.away.add(pair);
    if (known.tried.has(pair)) known.settled.add(pair);
    widened = true;
  }
  return widened;
}
