/** Which sheet lies over the page, and what it is about. */
import type { NoticeInput } from '../../procedures-schema/assist/index.ts';
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
  | 'keys';

export interface Panel {
  readonly open: PanelName | undefined;
  readonly line?: number | undefined;
  /** What was dropped on the text. */
  readonly dropped?: readonly File[] | undefined;
  /** Signal word that a notice begins with. */
  readonly word?: NoticeInput['word'] | undefined;
}

export const panel = newStore<Panel>({ open: undefined });

export const openPanel = (open: PanelName, about: Omit<Panel, 'open'> = {}): void =>
  panel.set({ open, line: undefined, dropped: undefined, word: undefined, ...about });

export function closePanel(): void {
  panel.set({ open: undefined, line: undefined });
  focusText();
}
