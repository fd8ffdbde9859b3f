/** Earlier texts of a file. Exports only. */
export { type Revision, revisionsOf, textAt } from './git.ts';
