/** Which sheet lies over the page, and what it is about. */
import type { NoticeInput } from '../../procedures-schema/assist/index.ts';
import type { Misspelt } from '../spelling/spelling.ts';
import { focusText } from './focus.ts';
import { newStore } from './store.ts';

export type PanelName =
  | 'file'
  | 'find'
  | 'rename'
  | 'front'
  | 'new'
  | 'new guide'
  | 'measurement'
  | 'limits'
  | 'figure'
  | 'notice'
  | 'branches'
  | 'remark'
  | 'outright'
  | 'libraries'
  | 'keys'
  | 'accept'
  | 'settle'
  | 'spelling';

export interface Panel {
  readonly open: PanelName | undefined;
  readonly line?: number | undefined;
  /** What was dropped on the text. */
  readonly dropped?: readonly File[] | undefined;
  /** Signal word that a notice begins with. */
  readonly word?: NoticeInput['word'] | undefined;
  /** What stands in the whole text, not only at the caret. */
  readonly whole?: boolean | undefined;
  readonly misspelt?: Misspelt | undefined;
}

export const panel = newStore<Panel>({ open: undefined });

export const openPanel = (open: PanelName, about: Omit<Panel, 'open'> = {}): void =>
  panel.set({ open, line: undefined, dropped: undefined, word: undefined, whole: undefined, misspelt: undefined, ...about });

export function closePanel(): void {
  panel.set({ open: undefined, line: undefined });
  focusText();
}
