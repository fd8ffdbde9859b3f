export { decode } from './decode.ts';
export type { Disk, Entry } from './disk.ts';
export { type FontBytes, fontsAsAsked, readFonts } from './fonts.ts';
export {
  isInside,
  LARGEST_FIGURE,
  LARGEST_TEXT,
  type LibraryOnDisk,
  libraryAt,
  type Refusal,
  readFigure,
  readLibrary,
  stampsOf,
  type TextFile,
} from './library.ts';
export { isOther, isRead, isText, isWritable } from './places.ts';
