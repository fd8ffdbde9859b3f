/** Which sheet of Review is shown; kept while another view is. */
import { newStore } from '../state/store.ts';

export type Sheet = 'findings' | 'walk' | 'ways' | 'coverage' | 'changes' | 'remarks' | 'film' | 'signOff';

export const reviewing = newStore<{ readonly sheet: Sheet }>({ sheet: 'findings' });
