/** Earlier texts of a file, and of a library. Exports only. */
export { type Revision, revisionsOf, textAt, textsAt } from './git.ts';
