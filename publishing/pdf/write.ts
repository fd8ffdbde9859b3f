/** A drawn book to the bytes of a PDF file: pages, fonts, tags, links, outline, facts. The only folder that knows the PDF library. */
import { sha256 } from '@noble/hashes/sha2.js';
import { PDFArray, PDFContext, type PDFDict, PDFHexString, PDFName, PDFRawStream, type PDFRef } from 'pdf-lib';
import type { Book } from '../book.ts';
import type { DrawnBook, FontSource } from '../layout/index.ts';
import { type Attachment, writeAttachments } from './attachments.ts';
import { contentOf, type FieldBox, type PageContent } from './content.ts';
import { stream, tableOf } from './fonts.ts';
import { type Widget, writeForm } from './forms.ts';
import { embedImage } from './images.ts';
import { points } from './numbers.ts';
import { writeOutline } from './outline.ts';
import { writePageLabels } from './page-labels.ts';
import { resourcesOf } from './resources.ts';
import { serialise } from './serialise.ts';
import { TagTree } from './tags.ts';
import { type DocumentFacts, xmpOf } from './xmp.ts';

export interface PdfExtras {
  /** Boxes can be filled in on the screen. */
  readonly fillable?: boolean;
  readonly attachments?: readonly Attachment[];
}

/** Same book, same bytes: no date of making, no random name; the file's id is the hash of its content. */
export function writePdf(drawn: DrawnBook, book: Book, source: FontSource, extras: PdfExtras = {}): Uint8Array {
  const context = PDFContext.create();
  const fonts = tableOf(drawn.pages, source);
  const contents = drawn.pages.map((page) => contentOf(page, fonts));
  const streams = contents.map(({ text }) => stream(context, new TextEncoder().encode(text)));
  const faces = fonts.embed(context);
  const images = drawn.images.map((image) => embedImage(image, context));
  const pageRefs = drawn.pages.map(() => context.nextRef());
  const pagesRef = context.nextRef();
  const places = new Map<string, { page: number; y: number }>();
  contents.forEach((content, page) => {
    for (const { name, y } of content.targets) if (!places.has(name)) places.set(name, { page, y });
  });
  const tags = new TagTree(drawn.structure);
  const annotations: { ref: PDFRef; node: number; index: number }[] = [];
  let parents = drawn.pages.length;
  const boxes: { page: number; field: FieldBox; parent: number }[] = [];
  const pageDicts: PDFDict[] = [];
  contents.forEach((content, index) => {
    const page = drawn.pages[index] as DrawnBook['pages'][number];
    content.marked.forEach((node, id) => {
      tags.content(node, index, id);
    });
    const links = content.links
      .filter((link) => places.has(link.to))
      .map((link) => {
        const dict = context.obj({
          Type: 'Annot',
          Subtype: 'Link',
          Rect: link.box.map((value) => Number(points(value))),
          Border: [0, 0, 0],
          F: 4,
          StructParent: parents,
        }) as PDFDict;
        dict.set(PDFName.of('Dest'), PDFHexString.fromText(link.to));
        dict.set(PDFName.of('Contents'), PDFHexString.fromText(link.says));
        const ref = context.register(dict);
        annotations.push({ ref, node: link.node, index: parents });
        tags.annotation(link.node, ref, index);
        parents += 1;
        return ref;
      });
    const dict = context.obj({
      Type: 'Page',
      Parent: pagesRef,
      MediaBox: [0, 0, Number(points(page.width)), Number(points(page.height))],
      Contents: context.register(streams[index] as PDFRawStream),
      Resources: resourcesOf(content, faces, images, context),
      StructParents: index,
      Tabs: 'S',
    }) as PDFDict;
    if (links.length > 0) dict.set(PDFName.of('Annots'), context.obj(links));
    context.assign(pageRefs[index] as PDFRef, dict);
    pageDicts.push(dict);
    if (extras.fillable)
      for (const field of content.fields) {
        boxes.push({ page: index, field, parent: parents });
        parents += 1;
      }
  });
  const form = writeForm(boxes, pageRefs, source, context);
  addWidgets(form?.widgets ?? [], boxes, pageDicts, annotations, tags, context);
  context.assign(pagesRef, context.obj({ Type: 'Pages', Count: pageRefs.length, Kids: [...pageRefs] }));
  const tree = writeTags(tags, contents, annotations, pageRefs, parents, context);
  const outline = writeOutline(
    drawn.bookmarks.filter((bookmark) => places.has(bookmark.anchor)),
    context,
  );
  const facts: DocumentFacts = {
    title: [book.number, book.title].filter((text) => text !== '').join(' '),
    publisher: book.publisher,
    subject: [book.subtitle ?? '', book.revision === undefined ? '' : `Rev ${book.revision}`].filter((text) => text !== '').join(', '),
    language: book.language,
    accessible: !drawn.notes.some(({ kind }) => kind === 'missing-glyph'),
  };
  const root = context.obj({
    Type: 'Catalog',
    Pages: pagesRef,
    MarkInfo: { Marked: true },
    StructTreeRoot: tree,
    ViewerPreferences: { DisplayDocTitle: true },
    Names: {
      Dests: writeDestinations(places, pageRefs, context),
      ...(extras.attachments?.length ? { EmbeddedFiles: writeAttachments(extras.attachments, context) } : {}),
    },
    PageLabels: writePageLabels(drawn.labels, context),
    Metadata: context.register(metadata(facts, context)),
  }) as PDFDict;
  root.set(PDFName.of('Lang'), PDFHexString.fromText(book.language));
  if (outline !== undefined) {
    root.set(PDFName.of('Outlines'), outline);
    root.set(PDFName.of('PageMode'), PDFName.of('UseOutlines'));
  }
  if (form !== undefined) root.set(PDFName.of('AcroForm'), context.register(form.form));
  const info = context.obj({}) as PDFDict;
  const rows: readonly (readonly [string, string])[] = [
    ['Title', facts.title],
    ['Author', facts.publisher],
    ['Subject', facts.subject],
    ['Creator', 'Handsclear'],
    ['Producer', 'Handsclear'],
  ];
  for (const [key, value] of rows) if (value !== '') info.set(PDFName.of(key), PDFHexString.fromText(value));
  return serialise(context, context.register(root), context.register(info), fileId(streams, book));
}

/** Widgets join the links of their page, and their elements the structure, in the order of the page. */
function addWidgets(
  widgets: readonly Widget[],
  boxes: readonly { readonly field: FieldBox; readonly parent: number }[],
  pages: readonly PDFDict[],
  annotations: { ref: PDFRef; node: number; index: number }[],
  tags: TagTree,
  context: PDFContext,
): void {
  const refOf = new Map(widgets.map((widget) => [widget.field, widget]));
  for (const { field, parent } of boxes) {
    const { ref, page } = refOf.get(field) as Widget;
    tags.annotation(field.node, ref, page);
    annotations.push({ ref, node: field.node, index: parent });
    const dict = pages[page] as PDFDict;
    const list = dict.lookupMaybe(PDFName.of('Annots'), PDFArray);
    if (list === undefined) dict.set(PDFName.of('Annots'), context.obj([ref]));
    else list.push(ref);
  }
}

/** Left plain, so that a program that knows nothing of PDF finds it. */
function metadata(facts: DocumentFacts, context: PDFContext): PDFRawStream {
  const bytes = new TextEncoder().encode(xmpOf(facts));
  return PDFRawStream.of(context.obj({ Type: 'Metadata', Subtype: 'XML', Length: bytes.length }) as PDFDict, bytes);
}

function writeTags(
  tags: TagTree,
  contents: readonly PageContent[],
  annotations: readonly { readonly ref: PDFRef; readonly node: number; readonly index: number }[],
  pages: readonly PDFRef[],
  next: number,
  context: PDFContext,
): PDFRef {
  const boxes = new Map<number, readonly [number, number, number, number]>();
  for (const { marked, covers } of contents)
    marked.forEach((node, id) => {
      const box = covers[id];
      if (box !== undefined && !boxes.has(node)) boxes.set(node, box);
    });
  const { root, elements } = tags.write(context, pages, boxes);

  const numbers: unknown[] = [];
  contents.forEach((content, index) => {
    numbers.push(index, context.register(context.obj(content.marked.map((node) => elements.get(node) as PDFRef))));
  });
  for (const { index, node } of annotations) numbers.push(index, elements.get(node) as PDFRef);
  const parentTree = context.register(context.obj({ Nums: numbers as number[] }));
  context.assign(
    root,
    context.obj({ Type: 'StructTreeRoot', K: [elements.get(0) as PDFRef], ParentTree: parentTree, ParentTreeNextKey: next }),
  );
  return root;
}

/** Named destinations, sorted by the bytes of their names as the name tree asks. */
function writeDestinations(
  places: ReadonlyMap<string, { readonly page: number; readonly y: number }>,
  pages: readonly PDFRef[],
  context: PDFContext,
): PDFRef {
  const rows = [...places]
    .map(([name, place]) => ({ name: PDFHexString.fromText(name), place }))
    .sort((a, b) => (a.name.asString() < b.name.asString() ? -1 : 1));
  const names: unknown[] = [];
  for (const { name, place } of rows) {
    const page = pages[place.page] as PDFRef;
    names.push(name, context.obj([page, PDFName.of('XYZ'), null, Number(points(place.y + 6000)), null]));
  }
  return context.register(context.obj({ Names: names as number[] }));
}

/** Of the packed contents: as telling as the plain ones, and a fifth as long. */
function fileId(streams: readonly PDFRawStream[], book: Book): string {
  const hash = sha256.create().update(new TextEncoder().encode(`${book.number} ${book.revision ?? ''} ${book.title}`));
  for (const { contents } of streams) hash.update(contents);
  return Array.from(hash.digest().subarray(0, 16), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
