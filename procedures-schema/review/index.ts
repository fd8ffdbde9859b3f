/** What a reviewer asks of the facts: walks to play, tables of what is covered. Exports only. */
export { type CoverageCell, type CoverageTable, coverageOf } from './coverage.ts';
export { type WalkFrame, type WalkSoFar, walkFrames } from './walk-frames.ts';
