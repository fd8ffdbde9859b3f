/**
 * What is looked for in the text that is open, with what was found of it, so that the strip at the text, the marks on the paper and the menu
 * are of one mind. The finding itself is the worker's, the same as for the whole library.
 */
import type { Span } from '../../procedures-schema/index.ts';
import { focusText, lastField, textHand } from './focus.ts';
import { lookAt, shown } from './shown.ts';
import { newStore } from './store.ts';

export interface Sought {
  readonly open: boolean;
  /** With the second line, for what is put in its place. */
  readonly replacing: boolean;
  readonly query: string;
  readonly by: string;
  readonly matchCase: boolean;
  readonly wholeWord: boolean;
  /** In the file that is shown, in order. */
  readonly found: readonly Span[];
  /** Only as many as are worth counting. */
  readonly more: boolean;
  /** Where looking begins: typing on goes on from there, not from the last hit. */
  readonly from: number;
  /** Counts how often it was asked for, so that the field gets the caret again. */
  readonly count: number;
}

export const sought = newStore<Sought>({
  open: false,
  replacing: false,
  query: '',
  by: '',
  matchCase: false,
  wholeWord: false,
  found: [],
  more: false,
  from: 0,
  count: 0,
});

/** A longer piece that is marked is to be worked on, not looked for. */
const LONGEST = 100;

export function lookFor(replacing: boolean): void {
  const { count, query } = sought.get();
  const inStrip = lastField()?.closest('.find-strip') ?? null;
  const marked = inStrip === null ? textHand()?.marked() : undefined;
  const own = marked && marked.text !== '' && marked.text.length <= LONGEST && !/[\r\n]/.test(marked.text) ? marked.text : undefined;
  shown.set({ view: 'write' });
  sought.set({ open: true, replacing, query: own ?? query, from: marked?.start ?? shown.get().caret, count: count + 1 });
}

/** Back to the text, where the last hit is marked. */
export function stopLooking(): void {
  sought.set({ open: false, found: [] });
  focusText();
}

/** Which of the hits is marked in the text; -1: none. */
export const hitAt = (found: readonly Span[], caret: number): number => found.findIndex(({ end }) => end === caret);

/** To the next hit after the caret or the one before it, around the ends of the text. */
export function toHit(which: 'next' | 'previous'): void {
  const { open, replacing, found } = sought.get();
  if (!open) return lookFor(replacing);
  const { caret } = shown.get();
  const hit =
    which === 'next' ? (found.find(({ start }) => start >= caret) ?? found[0]) : (found.findLast(({ end }) => end < caret) ?? found.at(-1));
  if (hit) showHit(hit);
}

export function showHit(hit: Span): void {
  const { file } = shown.get();
  sought.set({ from: hit.start });
  if (file !== undefined) lookAt(file, hit.start, hit.end);
}
