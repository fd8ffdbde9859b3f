/** The contract over the loopback address. Exports only. */
export { type Door, type Head, turnedAway } from './door.ts';
export { type Loopback, serveLoopback } from './server.ts';
