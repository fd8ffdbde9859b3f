/** Files that travel inside the PDF (ISO 32000-1, 7.11.4): named twice, as PDF/UA-1 clause 7.11 asks, and packed. */
import { type PDFContext, type PDFDict, PDFHexString, PDFName, type PDFObject } from 'pdf-lib';
import { stream } from './stream.ts';

export interface Attachment {
  /** File name without folders. */
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly type: 'application/json' | 'text/markdown';
  /** What it is, in words. */
  readonly about: string;
}

/** A name tree, sorted by name. */
export function writeAttachments(attachments: readonly Attachment[], context: PDFContext): PDFObject {
  const rows = attachments
    .map((one) => ({ one, name: PDFHexString.fromText(one.name) }))
    .sort((a, b) => (a.name.asString() < b.name.asString() ? -1 : 1));
  const names: unknown[] = [];
  for (const { one, name } of rows) {
    const file = stream(context, one.bytes, { Type: 'EmbeddedFile', Subtype: one.type });
    file.dict.set(PDFName.of('Params'), context.obj({ Size: one.bytes.length }));
    const ref = context.register(file);
    const dict = context.obj({ Type: 'Filespec', EF: { F: ref, UF: ref } }) as PDFDict;
    dict.set(PDFName.of('F'), name);
    dict.set(PDFName.of('UF'), name);
    dict.set(PDFName.of('Desc'), PDFHexString.fromText(one.about));
    names.push(name, context.register(dict));
  }
  return context.obj({ Names: names as number[] });
}
