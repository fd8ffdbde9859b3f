/** Drawing operations to PDF. Exports only; the only user of pdf-lib. */
export type { Attachment } from './attachments.ts';
export { contentBytes } from './content.ts';
export { type FontTable, tableOf } from './fonts.ts';
export { type PdfExtras, writePdf } from './write.ts';
export { type Sheet, writeSheets } from './write-sheets.ts';
