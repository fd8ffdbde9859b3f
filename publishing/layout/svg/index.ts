/** Drawings as vectors. Exports only. */
export { drawSvg, readSvg, type SvgDrawing } from './draw.ts';
