/** Texts as strings of a PDF file (ISO 32000-1, 7.9.2): plain ones as they are, all others in UTF-16. The same text always gives the same bytes. */
import { PDFHexString } from 'pdf-lib';

const plain = /^[ -'*-[\]-~]*$/;

export const textString = (text: string): string => (plain.test(text) ? `(${text})` : PDFHexString.fromText(text).toString());

/** Sorts texts by the bytes of their strings, as a name tree asks: the mark of UTF-16 stands above every plain letter. */
export function byBytes(a: string, b: string): number {
  const wide = Number(!plain.test(a)) - Number(!plain.test(b));
  return wide !== 0 ? wide : a < b ? -1 : a > b ? 1 : 0;
}
