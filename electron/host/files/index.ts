export type { Disk, Entry } from './disk.ts';
export { type LibraryOnDisk, type Refusal, type TextFile, LARGEST_TEXT, readFigure, readLibrary } from './library.ts';
