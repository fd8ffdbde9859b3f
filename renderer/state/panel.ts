/** Which sheet lies over the page, and what it is about. */
import type { NoticeInput } from '../../procedures-schema/assist/index.ts';
import type { Misspelt } from '../spelling/spelling.ts';
import { focusText, textHand } from './focus.ts';
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
  /** Where in which text; undefined: at the caret. */
  readonly at?: { readonly file: string; readonly offset: number } | undefined;
}

export const panel = newStore<Panel>({ open: undefined });

/** What had the keys before; they go back there where no text is on the page. */
let opener: Element | null = null;

export function openPanel(open: PanelName, about: Omit<Panel, 'open'> = {}): void {
  const now = document.activeElement;
  // From one sheet to another the way back stays.
  if (!now?.closest('.over')) opener = now;
  panel.set({ open, line: undefined, dropped: undefined, word: undefined, whole: undefined, misspelt: undefined, at: undefined, ...about });
}

export function closePanel(): void {
  panel.set({ open: undefined, line: undefined });
  if (textHand()) focusText();
  else if (opener instanceof HTMLElement && opener.isConnected) opener.focus();
}
