/** What an action is: menus, keys and tests read the same record. */
export interface Action {
  readonly name: string;
  readonly label: () => string;
  /** "Mod+S": Ctrl, or Command on a Mac. */
  readonly keys?: string;
  readonly when?: () => boolean;
  /** Its keys are heard in this view only; in the others they are the text's or the browser's. */
  readonly view?: 'write' | 'review' | 'print';
  readonly run: () => void | Promise<void>;
}
