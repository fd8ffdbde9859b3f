/** The user's own data beside the journal: settings and recent libraries. Exports only. */
export { Kept } from './kept.ts';
export { RecentLibraries, type RecentLibrary } from './recent.ts';
