/** The keys of the library's list: a key that leads to its field, and arrows that go through its lines, so that Tab leaves it in one go. */
import type { KeyboardEvent } from 'react';
import { focusText } from '../state/focus.ts';
import { shown } from '../state/shown.ts';
import { newStore } from '../state/store.ts';

const seeking = newStore<{ readonly wanted: boolean }>({ wanted: false });

/** Whoever looks for a document does so in Write, from wherever they are. */
export function seekDocument(): void {
  shown.set({ view: 'write' });
  seeking.set({ wanted: true });
}

/** For the field, when it is there. */
export function takeSeeking(field: HTMLInputElement | null): void {
  if (!seeking.get().wanted || !field) return;
  seeking.set({ wanted: false });
  field.focus();
  field.select();
}
export const useSeeking = (): boolean => seeking.use().wanted;

const linesIn = (list: HTMLElement): readonly HTMLElement[] => [...list.querySelectorAll<HTMLElement>('.entry, .shelf-head')];

/** For the element that holds the lines. What is gone to is not opened: that would take the keys away to its text. */
export function lineKeys(event: KeyboardEvent<HTMLElement>): void {
  const lines = linesIn(event.currentTarget);
  const at = lines.indexOf(event.target as HTMLElement);
  if (at < 0) return;
  const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: lines.length - 1 }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  lines[to]?.focus();
}

/** For the field above them: Enter opens the first document that fits, the arrow down goes to the lines. */
export function fieldKeys(event: KeyboardEvent<HTMLInputElement>, clear: () => void): void {
  const list = event.currentTarget.closest<HTMLElement>('.library');
  const entry = list?.querySelector<HTMLElement>('.entry');
  if (event.key === 'Enter') {
    entry?.click();
    // The text has the keys as soon as it is there.
    requestAnimationFrame(() => focusText());
  } else if (event.key === 'ArrowDown') entry?.focus();
  else if (event.key === 'Escape') {
    clear();
    focusText();
  } else return;
  event.preventDefault();
}
