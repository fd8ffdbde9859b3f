/** The contract over the loopback address. Exports only. */
export { type Loopback, type LoopbackOptions, serveLoopback } from './server.ts';
