/** The host's side of the contract. Exports only. */
export { Refused, Service, type ServiceOptions } from './service.ts';
