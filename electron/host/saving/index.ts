/** Writing into a library. Exports only. */
export { hashOf, insideLibrary, saveFiles } from './save.ts';
export { nodeWriteDisk, type WriteDisk } from './write-disk.ts';
export { writeWhole } from './write-whole.ts';
