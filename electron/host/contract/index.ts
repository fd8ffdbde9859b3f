/** What page and host say to each other. No Node, so that the page may import it. Exports only. */
export { BRIDGE, type Bridge, type Reply, UNSAVED_MARK } from './bridge.ts';
export { METHODS, type MethodName, type Methods } from './methods.ts';
export {
  type Conflict,
  type DiskChange,
  type HostEvent,
  type HostFile,
  JOURNAL_ENTRY,
  type JournalEntry,
  type PageMenu,
} from './records.ts';
export { inWords, isFault, type Refusals, refusalsInEnglish, type Said } from './refusals.ts';
export { Refused } from './refused.ts';
export { SETTINGS, type SettingName, type Settings, soundSettings } from './settings.ts';
export { misfit, type Of, type Shape } from './shape.ts';
