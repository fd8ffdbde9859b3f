/** The door into the core: text of a library in, findings and facts out. Exports only. */
export * from './checks/index.ts';
export { type Change, type Delta, type Engine, newEngine } from './engine.ts';
export { type FigureFacts, type FigureFile, type FigureKind, figureFacts, figureFile, kindOfFigure } from './figures/index.ts';
export * from './finding.ts';
export * from './flow/index.ts';
export * from './format/index.ts';
export { InvariantError, invariant } from './invariant.ts';
export * from './numbering/index.ts';
export * from './pipeline.ts';
export * from './quantities/index.ts';
export * from './reading/index.ts';
export * from './registers/index.ts';
