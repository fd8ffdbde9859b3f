/** Which sheet lies over the page: finding, or renaming. */
import { focusText } from './focus.ts';
import { newStore } from './store.ts';

export const panel = newStore<{ readonly open: 'find' | 'rename' | undefined }>({ open: undefined });

export function closePanel(): void {
  panel.set({ open: undefined });
  focusText();
}
