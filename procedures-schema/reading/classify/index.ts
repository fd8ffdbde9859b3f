/** The meaning of verb phrases. Exports only. */
export { classify } from './classify.ts';
export type { Around, Classified } from './deed.ts';
export { NO_POINT, WHEREVER } from './locks.ts';
export { atMost, showsGone, showsLittle, showsNoVolts } from './showing.ts';
export { KNOWN_SOURCE } from './tools.ts';
