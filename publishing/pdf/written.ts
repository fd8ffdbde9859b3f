/** An object already written as text. A book has tens of thousands of structure elements; a tree of library objects for each costs more than the rest. */
import { PDFObject } from 'pdf-lib';

export class Written extends PDFObject {
  readonly text: string;

  /** `text` is plain ASCII and one whole object. */
  constructor(text: string) {
    super();
    this.text = text;
  }

  override toString(): string {
    return this.text;
  }

  override sizeInBytes(): number {
    return this.text.length;
  }

  override copyBytesInto(buffer: Uint8Array, offset: number): number {
    const { text } = this;
    for (let at = 0; at < text.length; at += 1) buffer[offset + at] = text.charCodeAt(at);
    return text.length;
  }
}
