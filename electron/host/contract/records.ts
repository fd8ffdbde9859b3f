/** Records that cross in more than one method, each as a shape and the type that follows from it. */
import type { SettingName } from './settings.ts';
import type { Of, Shape } from './shape.ts';

/** A text of the library as the disk holds it; `hash` is SHA-256 of its bytes, in hex. */
export const HOST_FILE = { path: 'text', text: 'text', hash: 'text' } as const;
export type HostFile = Of<typeof HOST_FILE>;

/** Unsaved text of one file; `base` names the bytes that it was written over, null for a new file. Text keeps its byte-order mark. */
export const JOURNAL_ENTRY = { path: 'text', base: 'text or null', text: 'text' } as const;
export type JournalEntry = Of<typeof JOURNAL_ENTRY>;

/** What the disk holds instead of what the writer saw; both null: the file is gone. */
export const CONFLICT = { path: 'text', text: 'text or null', hash: 'text or null' } as const;
export type Conflict = Of<typeof CONFLICT>;

/**
 * A menu of the page. `name` is "file", "edit", "insert", "views" or another: the shell puts its own items into those that it knows. An action's
 * name comes back when it is chosen; `keys` as in "Mod+Shift+S", for showing.
 */
export const PAGE_MENU = { name: 'text', label: 'text', actions: [{ name: 'text', label: 'text', keys: 'text?' }] } as const;
export type PageMenu = Of<typeof PAGE_MENU>;

/** All settings, each with its value. */
export const SETTINGS_KEPT = {
  language: 'text',
  'text size': 'text',
  'spell-check': 'text',
  tour: 'text',
  initials: 'text',
  'signs as': 'text',
  'pages zoom': 'text',
  'pages arranged': 'text',
} as const satisfies Readonly<Record<SettingName, Shape>>;

export type DiskChange =
  | { readonly path: string; readonly text: string; readonly hash: string }
  | { readonly path: string; readonly present: true }
  | { readonly path: string; readonly gone: true };

/**
 * `action`: an item of the shell's menu was chosen; `show`: a file of the open library was asked for from outside. Both go to the one
 * window that they are about.
 */
export type HostEvent =
  | { readonly event: 'changed'; readonly library: string; readonly changes: readonly DiskChange[] }
  | { readonly event: 'action'; readonly name: string }
  | { readonly event: 'show'; readonly path: string };
