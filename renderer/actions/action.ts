/** What an action is: menus, keys and tests read the same record. */
export interface Action {
  readonly name: string;
  readonly label: () => string;
  /** "Mod+S": Ctrl, or Command on a Mac. */
  readonly keys?: string;
  readonly when?: () => boolean;
  readonly run: () => void | Promise<void>;
}
