export { check } from './check.ts';
export { checklist } from './checklist.ts';
export { compute } from './compute.ts';
export { explain } from './explain.ts';
export { narrate } from './narrate.ts';
export { print } from './print.ts';
export { walk } from './walk.ts';
