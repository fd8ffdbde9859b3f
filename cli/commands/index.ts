export { check } from './check.ts';
export { explain } from './explain.ts';
