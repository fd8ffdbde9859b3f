/** What page and host say to each other. No Node, so that the page may import it. Exports only. */
export { BRIDGE, type Bridge, type Reply, UNSAVED_MARK } from './bridge.ts';
export {
  type Conflict,
  type DiskChange,
  type HostEvent,
  type HostFile,
  type JournalEntry,
  METHODS,
  type MethodName,
  type Methods,
  type PageMenu,
} from './methods.ts';
export { Refused } from './refused.ts';
export { SETTINGS, type SettingName, type Settings, soundSettings } from './settings.ts';
export { misfit, type Shape } from './shape.ts';
