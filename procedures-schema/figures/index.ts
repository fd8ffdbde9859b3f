/** Figures: what their bytes say, as plain data, and the reading of drawings that publishing draws from. Exports only. */

export { readBitmap } from './bitmap.ts';
export { figureFacts } from './facts.ts';
export {
  type BitmapFacts,
  type Fault,
  type FigureFacts,
  type FigureFile,
  type FigureKind,
  figureFile,
  kindOfFigure,
  UNREAD,
} from './model.ts';
export { LEAST_PRINT, MOST_ENLARGED, mostScale } from './print-size.ts';
export { readSvg, type Stretch, type SvgDrawing, stretchesOf, walkSvg } from './svg/drawing.ts';
export { apply, type Matrix, scaleOf, turn } from './svg/matrix.ts';
export { type Colour, type Paint, readLength } from './svg/paint.ts';
export type { XmlNode } from './svg/xml.ts';
