/** Help for a writer, on the facts that the engine keeps: margin, completion, hover, renaming, insertions. Exports only. */
export { complete } from './complete.ts';
export { marginOf } from './margin.ts';
export type * from './model.ts';
export { namesToSettle } from './names-to-settle.ts';
export { textKey } from './text-key.ts';
