/** A list gone through by arrows, so that Tab leaves it: the entry that is chosen is the one that Tab comes to. */
import type { KeyboardEvent } from 'react';

/** For the element that holds the entries: the one gone to is chosen too. */
export function entryKeys(event: KeyboardEvent<HTMLElement>): void {
  const entries = [...event.currentTarget.querySelectorAll<HTMLElement>('.entry')];
  const at = entries.indexOf(event.target as HTMLElement);
  if (at < 0) return;
  const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: entries.length - 1 }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  entries[to]?.focus();
  entries[to]?.click();
}

/** Of an entry. */
export const tabbed = (chosen: boolean): 0 | -1 => (chosen ? 0 : -1);
