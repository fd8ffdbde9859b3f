/** Page labels (ISO 32000-1, 12.4.2): what a reader calls each page is what is printed on it, chapter by chapter where a form counts anew. */
import { type PDFContext, type PDFDict, PDFHexString, PDFName, type PDFObject } from 'pdf-lib';
import type { PageLabel } from '../layout/index.ts';

/** Runs of one prefix and style that count up by one. */
export function writePageLabels(labels: readonly PageLabel[], context: PDFContext): PDFObject {
  const nums: unknown[] = [];
  labels.forEach((label, index) => {
    const before = labels[index - 1];
    if (before !== undefined && before.style === label.style && before.prefix === label.prefix && before.count + 1 === label.count) return;
    const dict = context.obj(label.style === 'none' ? {} : { S: label.style === 'roman' ? 'r' : 'D' }) as PDFDict;
    if (label.prefix !== '') dict.set(PDFName.of('P'), PDFHexString.fromText(label.prefix));
    if (label.style !== 'none' && label.count !== 1) dict.set(PDFName.of('St'), context.obj(label.count));
    nums.push(index, dict);
  });
  return context.obj({ Nums: nums as number[] });
}
