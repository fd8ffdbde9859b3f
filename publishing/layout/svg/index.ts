/** Drawings as vectors. Exports only. */
export { drawSvg } from './draw.ts';
