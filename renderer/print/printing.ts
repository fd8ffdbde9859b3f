/** What Print is set to, kept while another view is shown. */
import { newStore } from '../state/store.ts';
import type { Edition } from '../worker/queries/queries.ts';

interface Printing {
  /** A document chosen here: until another is opened in Write (`over`), and printed then. */
  readonly asked: { readonly file: string; readonly over: string | undefined } | undefined;
  readonly choice: Omit<Edition, 'file' | 'earlier'>;
}

export const printing = newStore<Printing>({ asked: undefined, choice: { draft: false } });
