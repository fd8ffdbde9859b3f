/** Unsaved text, safe from a crash. Exports only. */
export { Alive } from './alive.ts';
export { Journal } from './journal.ts';
