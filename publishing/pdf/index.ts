/** Drawing operations to PDF. Exports only; the only user of pdf-lib. */
export type { Attachment } from './attachments.ts';
export { FontCodes } from './codes.ts';
export { contentBytes } from './content.ts';
export { type PdfExtras, writePdf } from './write.ts';
export { type Sheet, writeSheets } from './write-sheets.ts';
