/** Sheets of imposed pages to the bytes of a PDF for the press: every page once as a form, placed by a matrix. No tags: it is cut and folded, not read. */
import { sha256 } from '@noble/hashes/sha2.js';
import { type PDFDict, PDFHexString, PDFName, type PDFRef } from 'pdf-lib';
import type { Book } from '../book.ts';
import type { DrawnBook, DrawnPage, FontSource } from '../layout/index.ts';
import { Bytes } from './bytes.ts';
import { FontCodes } from './codes.ts';
import { ContentWriter, type PageFacts } from './content.ts';
import { deflated } from './deflated.ts';
import { PdfFile } from './file.ts';
import { embedFonts } from './fonts.ts';
import { embedImage } from './images.ts';
import { points } from './numbers.ts';
import { Resources } from './resources.ts';
import type { PdfExtras } from './write.ts';

/** As publishing/imposition gives it; told again here so that this folder needs no other. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly places: readonly {
    readonly page: number;
    readonly x: number;
    readonly y: number;
    readonly scale: number;
    readonly turned: boolean;
  }[];
  readonly marks: DrawnPage['ops'];
}

/** `before`: sheets drawn as they are, such as a test of the printer. `written`: told after each page, as in `writePdf`. */
export function writeSheets(
  drawn: DrawnBook,
  sheets: readonly Sheet[],
  before: readonly DrawnPage[],
  book: Book,
  source: FontSource,
  written: PdfExtras['written'] = () => undefined,
): Uint8Array {
  const file = new PdfFile();
  const { context } = file;
  // No marks: of the structure nothing stands in this file.
  const writer = new ContentWriter(new FontCodes(), { marks: false, covered: () => false });
  const hash = sha256.create();
  const title = [book.number, book.revision === undefined ? '' : `Rev ${book.revision}`, book.title]
    .filter((part) => part !== '')
    .join(' ');
  hash.update(new TextEncoder().encode(`${title} ${JSON.stringify(sheets)}`));
  const contentOf = (page: DrawnPage): Content => {
    const facts = writer.page(page);
    return { ...facts, bytes: writer.out.view().slice() };
  };
  const contents = drawn.pages.map((page, index) => {
    const content = contentOf(page);
    written(index + 1, drawn.pages.length);
    return content;
  });
  const early = before.map(contentOf);
  const marks = sheets.map((sheet) => contentOf({ width: sheet.width, height: sheet.height, ops: sheet.marks }));
  for (const { bytes } of contents) hash.update(bytes);
  const images = drawn.images.map((image) => embedImage(image, context));
  const resources = new Resources(file, embedFonts(writer.codes, source, context), images);
  const pagesRef = context.nextRef();
  const forms = contents.map((content, index) => {
    const page = drawn.pages[index] as DrawnPage;
    const number = file.reserve(1);
    const facts = `/Type/XObject/Subtype/Form/BBox[0 0 ${points(page.width)} ${points(page.height)}]/Resources ${resources.of(content)} 0 R`;
    file.stream(number, facts, deflated(content.bytes));
    return number;
  });
  const pageOf = (width: number, height: number, bytes: Uint8Array, needs: string): PDFRef => {
    const content = file.reserve(1);
    file.stream(content, '', deflated(bytes));
    const ref = context.nextRef();
    const facts = `/Parent ${pagesRef}/MediaBox[0 0 ${points(width)} ${points(height)}]/Contents ${content} 0 R/Resources ${needs}`;
    file.begin(ref.objectNumber).text(`<</Type/Page${facts}>>`);
    return ref;
  };
  const refs = [
    ...early.map((content, index) => {
      const { width, height } = before[index] as DrawnPage;
      return pageOf(width, height, content.bytes, `${resources.of(content)} 0 R`);
    }),
    ...sheets.map((sheet, index) => {
      const out = new Bytes();
      for (const place of sheet.places)
        out.text(`q ${matrix(place, drawn.pages[place.page] as DrawnPage, sheet.height)} cm/P${place.page} Do Q\n`);
      out.all((marks[index] as Content).bytes);
      const used = [...new Set(sheet.places.map(({ page }) => page))].map((page) => `/P${page} ${forms[page]} 0 R`);
      return pageOf(sheet.width, sheet.height, out.view(), `<</XObject<<${used.join('')}>>>>`);
    }),
  ];
  context.assign(pagesRef, context.obj({ Type: 'Pages', Count: refs.length, Kids: refs }));
  const info = context.obj({}) as PDFDict;
  for (const [key, value] of [
    ['Title', title],
    ['Author', book.publisher],
    ['Creator', 'Handsclear'],
    ['Producer', 'Handsclear'],
  ] as const)
    info.set(PDFName.of(key), PDFHexString.fromText(value));
  const id = Array.from(hash.digest().subarray(0, 16), (byte) => byte.toString(16).padStart(2, '0')).join('');
  return file.finish(context.register(context.obj({ Type: 'Catalog', Pages: pagesRef })), context.register(info), id);
}

interface Content extends PageFacts {
  readonly bytes: Uint8Array;
}

/** Millionths as a decimal. */
const millionths = (value: number): string => {
  const text = String(value).padStart(7, '0');
  return `${text.slice(0, -6)}.${text.slice(-6)}`.replace(/\.?0+$/, '') || '0';
};

/** From the page's own corner at the lower left, y up, to its place on the sheet. */
function matrix(place: Sheet['places'][number], page: DrawnPage, sheetHeight: number): string {
  const size = (length: number): number => Math.round((length * place.scale) / 1_000_000);
  const s = millionths(place.scale);
  // Turned to the left, the lower left corner goes to the lower right, and what was up points left.
  if (place.turned) return `0 ${s} -${s} 0 ${points(place.x + size(page.height))} ${points(sheetHeight - place.y - size(page.width))}`;
  return `${s} 0 0 ${s} ${points(place.x)} ${points(sheetHeight - place.y - size(page.height))}`;
}
