/** A book to drawing operations: normalise, measure, break, place, draw. Exports only. */
export { type Drawing, type DrawnBook, type DrawnPage, drawBook, drawingOf } from './draw.ts';
export { type FontSource, newFontSource } from './fontkit-shaper.ts';
export type { BitmapImage } from './images.ts';
export type { LayoutNote } from './kit.ts';

export { layoutBook, type PlacedBook } from './layout-book.ts';
export { learnedFrom } from './letters/learn.ts';
export { MeasuredMemory } from './measured-memory.ts';
export { type Op, type Path, rectangle, type Stroke, segment } from './ops.ts';
export { numberPages, type PageLabel, printedNumber } from './page-numbers.ts';
export type { PlacedPage } from './place.ts';
export { type Face, type FontFiles, type FontProgram, faces, type Shaped, type Shaper, widthOfAll } from './shaped.ts';
export type { Bookmark } from './slab.ts';
export type { NodeId, Role, Structure, StructureNode } from './structure.ts';
export type { Mp } from './units.ts';
