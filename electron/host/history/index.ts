/** Earlier texts of a file, and of a library. Exports only. */
export { figuresAt, type Revision, revisionNamed, revisionsOf, textAt, textsAt } from './git.ts';
