/** A PDF file as its raw objects: catalog, pages, structure elements, and each page's content stream as a list of painted pieces. */
import {
  decodePDFRawStream,
  PDFArray,
  PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  PDFNumber,
  type PDFObject,
  PDFRawStream,
  PDFRef,
  PDFString,
} from 'pdf-lib';

export interface RawElement {
  readonly role: string;
  readonly dict: PDFDict;
  readonly ref: PDFRef | undefined;
  readonly parent: RawElement | undefined;
  readonly kids: readonly (RawElement | Marked | Annotated)[];
}
export interface Marked {
  readonly page: PDFRef;
  readonly mcid: number;
}
export interface Annotated {
  readonly annotation: PDFRef;
}

/** One painting operator: inside which marked content it stands, from the outside in ("P 3", "Artifact"). */
export interface Painted {
  readonly operator: string;
  readonly inside: readonly string[];
}

export class RawPdf {
  readonly document: PDFDocument;
  readonly catalog: PDFDict;

  private constructor(document: PDFDocument) {
    this.document = document;
    this.catalog = document.catalog;
  }

  static async of(bytes: Uint8Array): Promise<RawPdf> {
    return new RawPdf(await PDFDocument.load(bytes, { updateMetadata: false }));
  }

  get<T extends PDFObject>(dict: PDFDict, key: string, type: new (...words: never[]) => T): T | undefined {
    const found = this.document.context.lookup(dict.get(PDFName.of(key)));
    return found instanceof (type as never) ? (found as T) : undefined;
  }

  dict = (from: PDFDict, key: string): PDFDict | undefined => this.get(from, key, PDFDict as never);
  array = (from: PDFDict, key: string): PDFArray | undefined => this.get(from, key, PDFArray as never);
  name = (from: PDFDict, key: string): string | undefined => (this.get(from, key, PDFName as never) as PDFName | undefined)?.decodeText();
  number = (from: PDFDict, key: string): number | undefined =>
    (this.get(from, key, PDFNumber as never) as PDFNumber | undefined)?.asNumber();
  text(from: PDFDict, key: string): string | undefined {
    const found = this.document.context.lookup(from.get(PDFName.of(key)));
    return found instanceof PDFString || found instanceof PDFHexString ? found.decodeText() : undefined;
  }

  get pages(): readonly { readonly ref: PDFRef; readonly dict: PDFDict }[] {
    return this.document.getPages().map((page) => ({ ref: page.ref, dict: page.node as unknown as PDFDict }));
  }

  annotations(page: PDFDict): readonly { readonly ref: PDFRef; readonly dict: PDFDict }[] {
    const list = this.array(page, 'Annots');
    return (list?.asArray() ?? []).map((ref) => ({ ref: ref as PDFRef, dict: this.document.context.lookup(ref) as PDFDict }));
  }

  stream(from: PDFDict, key: string): Uint8Array | undefined {
    const found = this.document.context.lookup(from.get(PDFName.of(key)));
    if (!(found instanceof PDFRawStream)) return undefined;
    return found.dict.has(PDFName.of('Filter')) ? decodePDFRawStream(found).decode() : found.contents;
  }

  /** The root of the structure as one element. */
  structure(): RawElement {
    const root = this.dict(this.catalog, 'StructTreeRoot');
    if (root === undefined) throw new Error('no structure tree');
    return this.element(root, undefined, undefined, 'Root');
  }

  private element(dict: PDFDict, ref: PDFRef | undefined, parent: RawElement | undefined, role: string): RawElement {
    const kids: (RawElement | Marked | Annotated)[] = [];
    const made: RawElement = { role, dict, ref, parent, kids };
    const entry = this.document.context.lookup(dict.get(PDFName.of('K')));
    const list = entry instanceof PDFArray ? entry.asArray() : entry === undefined ? [] : [entry];
    for (const item of list) {
      const found = this.document.context.lookup(item);
      if (found instanceof PDFNumber) {
        // A bare mark stands on the element's own page (ISO 32000-1, 14.7.4.2).
        kids.push({ page: dict.get(PDFName.of('Pg')) as PDFRef, mcid: found.asNumber() });
        continue;
      }
      const kid = found as PDFDict;
      const type = this.name(kid, 'Type');
      if (type === 'MCR') kids.push({ page: kid.get(PDFName.of('Pg')) as PDFRef, mcid: this.number(kid, 'MCID') as number });
      else if (type === 'OBJR') kids.push({ annotation: kid.get(PDFName.of('Obj')) as PDFRef });
      else kids.push(this.element(kid, item instanceof PDFRef ? item : undefined, made, this.name(kid, 'S') ?? ''));
    }
    return made;
  }

  /** What each page paints. Our own streams only: no inline images, strings in parentheses without any in them, or in hexadecimal. */
  painted(page: PDFDict): { readonly painted: readonly Painted[]; readonly balanced: boolean; readonly mcids: readonly number[] } {
    const content = Buffer.from(this.stream(page, 'Contents') ?? new Uint8Array()).toString('latin1');
    const words = content.match(/<<.*?>>|<[0-9A-Fa-f]*>|\[(?:\([^()]*\)|[^\]()])*\]|\([^()]*\)|\/[^\s<>[\]/]+|[^\s<>[\]/()]+/g) ?? [];
    const painted: Painted[] = [];
    const inside: string[] = [];
    const mcids: number[] = [];
    let balanced = true;
    let operands: string[] = [];
    for (const word of words) {
      if (/^[A-Za-z*'"]/.test(word)) {
        if (word === 'BDC') {
          const mcid = /\/MCID (\d+)/.exec(operands[1] ?? '')?.[1];
          if (mcid !== undefined) mcids.push(Number(mcid));
          inside.push(mcid === undefined ? (operands[0] ?? '').slice(1) : `${(operands[0] ?? '').slice(1)} ${mcid}`);
        } else if (word === 'BMC') inside.push((operands[0] ?? '').slice(1));
        else if (word === 'EMC') {
          if (inside.length === 0) balanced = false;
          inside.pop();
        } else if (/^(Tj|TJ|'|"|f|F|f\*|B|B\*|b|b\*|S|s|sh|Do|EI)$/.test(word)) painted.push({ operator: word, inside: [...inside] });
        operands = [];
      } else operands.push(word);
    }
    return { painted, balanced: balanced && inside.length === 0, mcids };
  }

  /** A number tree without levels, as we write it. */
  numbers(tree: PDFDict): ReadonlyMap<number, PDFObject> {
    const list = this.array(tree, 'Nums')?.asArray() ?? [];
    const out = new Map<number, PDFObject>();
    for (let k = 0; k + 1 < list.length; k += 2) out.set((list[k] as PDFNumber).asNumber(), list[k + 1] as PDFObject);
    return out;
  }
}

export function* eachElement(element: RawElement): Iterable<RawElement> {
  yield element;
  for (const kid of element.kids) if ('role' in kid) yield* eachElement(kid);
}
