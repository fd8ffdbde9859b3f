/** Drawings as vectors. Exports only. */
export { drawSvg } from './draw.ts';
export { keptSvg } from './drawn.ts';
