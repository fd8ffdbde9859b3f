/** Drawing operations to PDF. Exports only; the only user of pdf-lib. */
export { writePdf } from './write.ts';
