/** Which sheet lies over the page: finding, or renaming. */
import { newStore } from './store.ts';

export const panel = newStore<{ readonly open: 'find' | 'rename' | undefined }>({ open: undefined });
