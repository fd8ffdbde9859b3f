/** Unsaved text, safe from a crash. Exports only. */
export { Journal } from './journal.ts';
