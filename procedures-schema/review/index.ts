/** What a reviewer asks of the facts: walks to play, tables of what is covered, two texts compared, remarks and signatures. Exports only. */
export { type Changed, type OneText, WEIGHTS, type Weight } from './changed.ts';
export { compareTexts } from './compare.ts';
export { compareGuides, type OneGuide } from './compare-guides.ts';
export { type CoverageCell, type CoverageTable, coverageOf } from './coverage.ts';
export { type Texts, textsFor } from './earlier-texts.ts';
export { likeness, movedIn, type Pairable, pairUp } from './pair-up.ts';
export { linesOfGuide, linesOfSteps, type PinLine } from './pin-lines.ts';
export { type Pinned, pinsOf } from './pins.ts';
export {
  EMPTY_RECORD,
  type ReadRecord,
  type Remark,
  type ReviewRecord,
  readRecord,
  recordPath,
  type Said,
  type Signature,
  writeRecord,
} from './record.ts';
export { boundIn, type GuideFacts, signatureHolds, signedOf, verdictOf, walkedFrom } from './signed.ts';
export { type GraphEdge, type GraphStep, graphOf, type StepGraph, stepGraph } from './step-graph.ts';
export type { Waited } from './wait-time.ts';
export { type WalkFrame, type WalkSoFar, walkFrames } from './walk-frames.ts';
export { type LaidEdge, type LaidWays, layWays, shortened, TIP, waysPath } from './ways-layout.ts';
