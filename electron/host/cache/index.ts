/** What may be forgotten at any time. Exports only. */
export { Cache } from './cache.ts';
