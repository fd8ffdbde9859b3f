/** Earlier states of a library. Exports only. */
export { figuresAt, type Revision, revisionNamed, revisionsOf, textsAt } from './git.ts';
