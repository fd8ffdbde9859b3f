/** Which sheet lies over the page, and what it is about. */
import { focusText } from './focus.ts';
import { newStore } from './store.ts';

export type PanelName =
  | 'file'
  | 'find'
  | 'rename'
  | 'front'
  | 'new'
  | 'measurement'
  | 'figure'
  | 'remark'
  | 'outright'
  | 'libraries'
  | 'keys';

export interface Panel {
  readonly open: PanelName | undefined;
  readonly line?: number | undefined;
  /** A picture that was dropped on the text. */
  readonly dropped?: File | undefined;
}

export const panel = newStore<Panel>({ open: undefined });

export const openPanel = (open: PanelName, line?: number): void => panel.set({ open, line, dropped: undefined });

export function closePanel(): void {
  panel.set({ open: undefined, line: undefined });
  focusText();
}
