/** Paper checklists: a procedure on one or two sheets, to be ticked off with gloves on. Exports only. */
export { shortGuide, shortProcedure } from './short-book.ts';
