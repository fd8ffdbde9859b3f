/** The recording that the text is compared with while this window is open; its drift stands in the margin of Write. */
import type { Drift } from '../../procedures-schema/narration/index.ts';
import { newStore } from './store.ts';

export interface Filming {
  readonly file: string | undefined;
  readonly model: string | undefined;
  readonly captions: string | undefined;
  /** Name of the file of captions. */
  readonly name: string;
  readonly drifts: readonly Drift[];
}

export const filming = newStore<Filming>({ file: undefined, model: undefined, captions: undefined, name: '', drifts: [] });
