/** Sheets of imposed pages to the bytes of a PDF for the press: every page once as a form, placed by a matrix. No tags: it is cut and folded, not read. */
import { sha256 } from '@noble/hashes/sha2.js';
import { PDFContext, type PDFDict, PDFHexString, PDFName, type PDFRef } from 'pdf-lib';
import type { Book } from '../book.ts';
import type { DrawnBook, DrawnPage, FontSource } from '../layout/index.ts';
import { contentOf, type PageContent } from './content.ts';
import { stream, tableOf } from './fonts.ts';
import { embedImage } from './images.ts';
import { points } from './numbers.ts';
import { resourcesOf } from './resources.ts';
import { serialise } from './serialise.ts';

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

/** `before`: sheets drawn as they are, such as a test of the printer. */
export function writeSheets(
  drawn: DrawnBook,
  sheets: readonly Sheet[],
  before: readonly DrawnPage[],
  book: Book,
  source: FontSource,
): Uint8Array {
  const context = PDFContext.create();
  const fonts = tableOf([...drawn.pages, ...before], source);
  const contents = drawn.pages.map((page) => contentOf(page, fonts));
  const early = before.map((page) => contentOf(page, fonts));
  const faces = fonts.embed(context);
  const images = drawn.images.map((image) => embedImage(image, context));
  const pagesRef = context.nextRef();
  const pack = (text: string) => stream(context, new TextEncoder().encode(text));
  const forms = contents.map((content, index) => {
    const page = drawn.pages[index] as DrawnPage;
    const made = stream(context, new TextEncoder().encode(unmarked(content)), { Type: 'XObject', Subtype: 'Form' });
    made.dict.set(PDFName.of('BBox'), context.obj([0, 0, Number(points(page.width)), Number(points(page.height))]));
    made.dict.set(PDFName.of('Resources'), resourcesOf(content, faces, images, context));
    return context.register(made);
  });
  const pageOf = (width: number, height: number, text: string, resources: PDFDict): PDFRef =>
    context.register(
      context.obj({
        Type: 'Page',
        Parent: pagesRef,
        MediaBox: [0, 0, Number(points(width)), Number(points(height))],
        Contents: context.register(pack(text)),
        Resources: resources,
      }),
    );
  const refs = [
    ...early.map((content, index) => {
      const { width, height } = before[index] as DrawnPage;
      return pageOf(width, height, unmarked(content), resourcesOf(content, faces, images, context));
    }),
    ...sheets.map((sheet) => {
      const marks = contentOf({ width: sheet.width, height: sheet.height, ops: sheet.marks }, fonts).text;
      const placed = sheet.places.map(
        (place) => `q ${matrix(place, drawn.pages[place.page] as DrawnPage, sheet.height)} cm /P${place.page} Do Q`,
      );
      const used = Object.fromEntries(sheet.places.map(({ page }) => [`P${page}`, forms[page] as PDFRef]));
      return pageOf(
        sheet.width,
        sheet.height,
        [...placed, marks].filter((part) => part !== '').join('\n'),
        context.obj({ XObject: used }) as PDFDict,
      );
    }),
  ];
  context.assign(pagesRef, context.obj({ Type: 'Pages', Count: refs.length, Kids: refs }));
  const info = context.obj({}) as PDFDict;
  const title = [book.number, book.revision === undefined ? '' : `Rev ${book.revision}`, book.title]
    .filter((part) => part !== '')
    .join(' ');
  for (const [key, value] of [
    ['Title', title],
    ['Author', book.publisher],
    ['Creator', 'Handsclear'],
    ['Producer', 'Handsclear'],
  ] as const)
    info.set(PDFName.of(key), PDFHexString.fromText(value));
  const hash = sha256.create().update(new TextEncoder().encode(`${title} ${JSON.stringify(sheets)}`));
  for (const content of contents) hash.update(new TextEncoder().encode(content.text));
  const id = Array.from(hash.digest().subarray(0, 16), (byte) => byte.toString(16).padStart(2, '0')).join('');
  return serialise(context, context.register(context.obj({ Type: 'Catalog', Pages: pagesRef })), context.register(info), id);
}

/** Marks of the structure mean nothing on a sheet. */
const unmarked = (content: PageContent): string => content.text.replace(/^\/(?:P|Artifact) <<.*>> BDC$\n?|^EMC$\n?/gm, '');

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
