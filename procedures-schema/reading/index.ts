/** The reader: step sentences to actions on named things. Exports only. */
export { type About, aboutOf, type Subject } from './about.ts';
export type * from './action.ts';
export { HANDS_AT_WORK } from './action-kinds.ts';
export { BRANCH_WORD, branchCondition, READ_LANGUAGE } from './branch-words.ts';
export { KNOWN_SOURCE, showsGone, showsLittle, showsNoVolts, WHEREVER } from './classify/index.ts';
export type { ReadingContext } from './context.ts';
export { opensWithOrder } from './imperative.ts';
export { english } from './lexicon/en/english.ts';
export { mayBeSaidOf, OVERRIDE_VERBS } from './override-verbs.ts';
export { readingVersion, readProse } from './read.ts';
export { type SaidOutright, saidOutright } from './said-outright.ts';
export { sentenceKey } from './sentence-key.ts';
export { saysStandClear } from './stand-clear.ts';
