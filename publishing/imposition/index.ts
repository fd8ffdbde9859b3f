/** Pages onto sheets that are folded or cut: which page stands where. Exports only. */

export { duplexTest } from './duplex-test.ts';
export { type Choice, impose } from './impose.ts';
export { type PlacedOnSheet, type SheetSide, sheets } from './sheet.ts';
export { saddle, signatures } from './signatures.ts';
