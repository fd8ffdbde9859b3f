/** What page and host say to each other. No Node, so that the page may import it. Exports only. */
export { type DiskChange, type HostEvent, type HostFile, type JournalEntry, METHODS, type MethodName, type Methods } from './methods.ts';
export { misfit, type Shape } from './shape.ts';
