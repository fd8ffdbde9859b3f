/** Writing into a library. Exports only. */
export { insideLibrary } from './inside.ts';
export { removeLeftovers } from './leftovers.ts';
export { removeFile, renameFile, twinOf } from './move.ts';
export { unfitPath } from './names.ts';
export { hashOf, saveFiles, stateOf } from './save.ts';
export { Turns } from './turns.ts';
export { nodeWriteDisk, type WriteDisk } from './write-disk.ts';
export { writeWhole } from './write-whole.ts';
