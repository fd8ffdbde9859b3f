/**
 * A drawn book to the bytes of a PDF file: pages, fonts, tags, links, outline, facts. The only folder that knows the PDF library. Each page is written
 * and packed as it is drawn and then forgotten; what stands around the pages is written after the last.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { type PDFDict, PDFHexString, PDFName, PDFRawStream, PDFRef } from 'pdf-lib';
import type { Book } from '../book.ts';
import type { Drawing, FontSource, NodeId } from '../layout/index.ts';
import { type Attachment, writeAttachments } from './attachments.ts';
import { FontCodes } from './codes.ts';
import { type Box, ContentWriter, type FieldBox, type PageFacts } from './content.ts';
import { deflated } from './deflated.ts';
import { PdfFile } from './file.ts';
import { embedFonts } from './fonts.ts';
import { type Widget, writeForm } from './forms.ts';
import { embedImage } from './images.ts';
import { writeOutline } from './outline.ts';
import { writePageLabels } from './page-labels.ts';
import { Resources } from './resources.ts';
import { byBytes, textString } from './strings.ts';
import { TagTree } from './tags.ts';
import { type DocumentFacts, xmpOf } from './xmp.ts';

export interface PdfExtras {
  /** Boxes can be filled in on the screen. */
  readonly fillable?: boolean;
  readonly attachments?: readonly Attachment[];
  /** Told after each page that is written, counted from one; what stands around the pages comes after the last. */
  readonly written?: (page: number, of: number) => void;
}

interface WrittenPage extends PageFacts {
  readonly width: number;
  readonly height: number;
}

/** Where something on the pages can be jumped to. */
type Places = ReadonlyMap<string, { readonly page: number; readonly y: number }>;

/** Same book, same bytes: no date of making, no random name; the file's id is the hash of its content. */
export function writePdf(drawing: Drawing, book: Book, source: FontSource, extras: PdfExtras = {}): Uint8Array {
  const file = new PdfFile();
  const { context } = file;
  const codes = new FontCodes();
  const streams = file.reserve(drawing.count);
  const pages = file.reserve(drawing.count);
  const hash = sha256.create().update(new TextEncoder().encode(`${book.number} ${book.revision ?? ''} ${book.title}`));
  const written = writeContents(drawing, codes, file, streams, hash, extras);
  const places = placesIn(written);
  const tags = new TagTree(drawing.structure);
  written.forEach(({ marked }, page) => {
    marked.forEach((node, id) => {
      tags.content(node, page, id);
    });
  });
  // Every annotation, in the order of the parent tree, which pages come first in.
  const annotated: NodeId[] = [];
  const annotations = written.map(({ links }, page) =>
    links
      .filter(({ to }) => places.has(to))
      .map((link): number => {
        const number = file.reserve(1);
        const out = file.begin(number);
        // An annotation need not say that it is one (ISO 32000-1, table 164), and there are ten to a page.
        out.text('<</Subtype/Link/Rect');
        writeBox(link.box, out);
        out.text(`/Border[0 0 0]/F 4/StructParent ${drawing.count + annotated.length}/Dest${textString(link.to)}`);
        out.text(`/Contents${textString(link.says)}>>`);
        annotated.push(link.node);
        tags.annotation(link.node, number, page);
        return number;
      }),
  );
  const boxes: { page: number; field: FieldBox; parent: number }[] = [];
  if (extras.fillable)
    written.forEach(({ fields }, page) => {
      for (const field of fields) {
        boxes.push({ page, field, parent: drawing.count + annotated.length });
        annotated.push(field.node);
      }
    });
  const pageRefs = written.map((_, index) => PDFRef.of(pages + index));
  const form = writeForm(boxes, pageRefs, source, context);
  const refOf = new Map((form?.widgets ?? []).map((widget) => [widget.field, widget]));
  for (const { field } of boxes) {
    const { ref, page } = refOf.get(field) as Widget;
    tags.annotation(field.node, ref.objectNumber, page);
    (annotations[page] as number[]).push(ref.objectNumber);
  }
  const images = drawing.images.map((image) => embedImage(image, context));
  const resources = new Resources(file, embedFonts(codes, source, context), images);
  const pageTree = file.reserve(1);
  written.forEach((page, index) => {
    const needs = resources.of(page);
    const out = file.begin(pages + index);
    out.text(`<</Type/Page/Parent ${pageTree} 0 R/MediaBox`);
    writeBox([0, 0, page.width, page.height], out);
    out.text(`/Contents ${streams + index} 0 R/Resources ${needs} 0 R/StructParents ${index}/Tabs/S`);
    const own = annotations[index] as readonly number[];
    if (own.length > 0) out.text(`/Annots[${own.map((number) => `${number} 0 R`).join(' ')}]`);
    out.text('>>');
  });
  const kids = pageRefs.map((ref) => ref.toString()).join(' ');
  file.begin(pageTree).text(`<</Type/Pages/Count ${drawing.count}/Kids[${kids}]>>`);
  const tree = writeTags(tags, written, annotated, pages, file);
  const outline = writeOutline(
    drawing.bookmarks.filter((bookmark) => places.has(bookmark.anchor)),
    file,
    (node) => tags.numberOf(node),
  );
  const facts: DocumentFacts = {
    title: [book.number, book.title].filter((text) => text !== '').join(' '),
    publisher: book.publisher,
    subject: [book.subtitle ?? '', book.revision === undefined ? '' : `Rev ${book.revision}`].filter((text) => text !== '').join(', '),
    language: book.language,
    accessible: !drawing.notes().some(({ kind }) => kind === 'missing-glyph'),
  };
  const root = context.obj({
    Type: 'Catalog',
    Pages: PDFRef.of(pageTree),
    MarkInfo: { Marked: true },
    StructTreeRoot: PDFRef.of(tree),
    ViewerPreferences: { DisplayDocTitle: true },
    Names: {
      Dests: PDFRef.of(writeDestinations(places, pages, file)),
      ...(extras.attachments?.length ? { EmbeddedFiles: writeAttachments(extras.attachments, context) } : {}),
    },
    PageLabels: writePageLabels(drawing.labels, context),
    Metadata: context.register(metadata(facts, file)),
  }) as PDFDict;
  root.set(PDFName.of('Lang'), PDFHexString.fromText(book.language));
  if (outline !== undefined) {
    root.set(PDFName.of('Outlines'), PDFRef.of(outline));
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
  const id = Array.from(hash.digest().subarray(0, 16), (byte) => byte.toString(16).padStart(2, '0')).join('');
  return file.finish(context.register(root), context.register(info), id);
}

/** Content streams under numbers that follow each other from `first`. `hash` takes in their checksums. */
function writeContents(
  drawing: Drawing,
  codes: FontCodes,
  file: PdfFile,
  first: number,
  hash: { update(bytes: Uint8Array): unknown },
  { fillable = false, written }: PdfExtras,
): readonly WrittenPage[] {
  const { nodes } = drawing.structure;
  const writer = new ContentWriter(codes, {
    marks: true,
    covered: (node) => nodes[node]?.role === 'Figure',
    ...(fillable ? { annotated: (node: NodeId) => nodes[node]?.role === 'Form' } : {}),
  });
  return Array.from({ length: drawing.count }, (_, index): WrittenPage => {
    const page = drawing.page(index);
    const facts = writer.page(page);
    const bytes = deflated(writer.out.view());
    file.stream(first + index, '', bytes);
    // Ends with the checksum of the plain content (RFC 1950, 2.2): enough to tell two files apart, and soon done.
    hash.update(bytes.subarray(-4));
    written?.(index + 1, drawing.count);
    return { ...facts, width: page.width, height: page.height };
  });
}

function placesIn(pages: readonly WrittenPage[]): Places {
  const places = new Map<string, { page: number; y: number }>();
  pages.forEach(({ targets }, page) => {
    for (const { name, y } of targets) if (!places.has(name)) places.set(name, { page, y });
  });
  return places;
}

function writeBox(box: Box, out: ReturnType<PdfFile['begin']>): void {
  out.byte(91);
  box.forEach((value, index) => {
    if (index > 0) out.byte(32);
    out.points(value);
  });
  out.byte(93);
}

/** Left plain, so that a program that knows nothing of PDF finds it. */
function metadata(facts: DocumentFacts, { context }: PdfFile): PDFRawStream {
  const bytes = new TextEncoder().encode(xmpOf(facts));
  return PDFRawStream.of(context.obj({ Type: 'Metadata', Subtype: 'XML', Length: bytes.length }) as PDFDict, bytes);
}

/** The structure with its way back from marks and annotations to elements; its object number. */
function writeTags(tags: TagTree, pages: readonly WrittenPage[], annotated: readonly NodeId[], firstPage: number, file: PdfFile): number {
  const boxes = new Map<NodeId, Box>();
  for (const { covers } of pages) for (const [node, box] of covers) if (!boxes.has(node)) boxes.set(node, box);
  const drawn = new Map(pages.flatMap(({ fields }) => fields.map((field) => [field.node, field] as const)));
  const root = file.reserve(1);
  const parentTree = file.reserve(1);
  const lists = file.reserve(pages.length);
  tags.write(file, root, firstPage, { boxes, fields: annotated.some((node) => drawn.has(node)) ? new Map() : drawn });
  pages.forEach(({ marked }, index) => {
    file.begin(lists + index).text(`[${marked.map((node) => `${tags.numberOf(node)} 0 R`).join(' ')}]`);
  });
  const out = file.begin(parentTree);
  out.text('<</Nums[');
  for (let index = 0; index < pages.length; index += 1) out.text(`${index} ${lists + index} 0 R `);
  annotated.forEach((node, index) => {
    out.text(`${pages.length + index} ${tags.numberOf(node)} 0 R `);
  });
  out.text(']>>');
  const next = pages.length + annotated.length;
  file.begin(root).text(`<</Type/StructTreeRoot/K[${tags.numberOf(0)} 0 R]/ParentTree ${parentTree} 0 R/ParentTreeNextKey ${next}>>`);
  return root;
}

/** Named destinations, sorted by the bytes of their names as the name tree asks; the tree's object number. */
function writeDestinations(places: Places, pages: number, file: PdfFile): number {
  const number = file.reserve(1);
  const out = file.begin(number);
  out.text('<</Names[');
  for (const [name, { page, y }] of [...places].sort(([a], [b]) => byBytes(a, b))) {
    out.text(`${textString(name)}[`);
    out.whole(pages + page);
    out.text(' 0 R/XYZ null ');
    out.points(y + 6000);
    out.text(' null]');
  }
  out.text(']>>');
  return number;
}
