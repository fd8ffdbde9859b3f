/** The host's side of the contract. Exports only. */
export type { Caller, How, Opening, ServiceOptions, Shell } from './inner.ts';
export { replyTo } from './reply.ts';
export { Service } from './service.ts';
