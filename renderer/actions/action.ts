/** What an action is: menus, keys and tests read the same record. */
export interface Action {
  readonly name: string;
  readonly label: () => string;
  /** "Mod+S": Ctrl, or Command on a Mac. */
  readonly keys?: string;
  /** Where somebody types hears these keys by itself, and does it better: here they are only shown. */
  readonly heardThere?: true;
  /** A line stands above it in the menu. */
  readonly apart?: true;
  readonly when?: () => boolean;
  /** Its keys are heard in this view only; in the others they are the text's or the browser's. */
  readonly view?: 'write' | 'review' | 'print';
  readonly run: () => void | Promise<void>;
}
