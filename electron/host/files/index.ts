export type { Disk, Entry } from './disk.ts';
export { type FontBytes, readFonts } from './fonts.ts';
export { LARGEST_TEXT, type LibraryOnDisk, type Refusal, readFigure, readLibrary, type TextFile } from './library.ts';
