/**
 * PDF/UA-1 (ISO 14289-1:2014) on every sample guide, as bound book, as paper checklists, and as forms with attachments: each point that a
 * program can check, with its clause (tests/support/pdf-ua.ts). The text of the structure, read by pdf.js, against the words the book holds.
 * And the points themselves: a file damaged on purpose is found out.
 */
import { type PDFDict, PDFName } from 'pdf-lib';
import * as pdfjs from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book } from '../../publishing/book.ts';
import { attachmentsOf, guideBook, printBook, procedureBook, shortGuide } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource } from '../../publishing/layout/index.ts';
import { points } from '../support/pdf-ua.ts';
import { bare, blockTexts, expectedText } from '../support/placed-text.ts';
import { eachElement, type RawElement, RawPdf } from '../support/raw-pdf.ts';
import { type Sample, sample } from '../support/sample.ts';

interface Made {
  readonly book: Book;
  readonly bytes: Uint8Array;
  readonly raw: RawPdf;
}

let it: Sample;
const made = new Map<string, Made>();
beforeAll(async () => {
  it = await sample();
  const keep = async (name: string, book: Book, extras: Parameters<typeof printBook>[2] = {}): Promise<void> => {
    const { bytes } = printBook(book, it.fonts, extras);
    made.set(name, { book, bytes, raw: await RawPdf.of(bytes) });
  };
  const { procedures } = it.report.facts;
  for (const guide of it.report.facts.guides) {
    const { id } = guide.head;
    await keep(id, guideBook(guide, it.input));
    await keep(`${id} short`, shortGuide(guide, it.input));
    const attachments = attachmentsOf(procedures, guide, it.input);
    await keep(`${id} short form`, shortGuide(guide, it.input), { fillable: true, attachments });
  }
  const first = procedures[0] as (typeof procedures)[number];
  await keep('one procedure as a form', procedureBook(first, it.input), { fillable: true });
  await keep('one procedure, draft', procedureBook(first, { ...it.input, draft: true }, { paper: 'letter' }));
});

describe('every point, on every file', () => {
  test.each(points.map((point) => [point.clause, point.says, point] as const))('%s: %s', (_, __, point) => {
    for (const [name, { raw }] of made) expect(point.wrong(raw).slice(0, 5), name).toEqual([]);
  });

  test('the points had something to look at', () => {
    const roles = new Set([...made.values()].flatMap(({ raw }) => [...eachElement(raw.structure())].map(({ role }) => role)));
    for (const role of ['H1', 'H2', 'L', 'LI', 'Lbl', 'LBody', 'Table', 'TH', 'TD', 'Figure', 'Note', 'TOC', 'Link', 'Form', 'Caption'])
      expect([...roles]).toContain(role);
  });
});

describe('a damaged file is found out', () => {
  const damage: readonly (readonly [string, (raw: RawPdf) => void])[] = [
    ['7.1 (title)', (raw) => raw.catalog.delete(PDFName.of('ViewerPreferences'))],
    ['7.1 (marked)', (raw) => raw.catalog.delete(PDFName.of('MarkInfo'))],
    ['7.2', (raw) => raw.catalog.delete(PDFName.of('Lang'))],
    ['5', (raw) => raw.catalog.delete(PDFName.of('Metadata'))],
    ['7.17', (raw) => raw.catalog.delete(PDFName.of('PageLabels'))],
    ['7.1 (each mark once)', (raw) => firstOf(raw, 'P').dict.delete(PDFName.of('K'))],
    ['7.1 (roles)', (raw) => firstOf(raw, 'P').dict.set(PDFName.of('S'), PDFName.of('Para'))],
    ['7.3', (raw) => firstOf(raw, 'Figure').dict.delete(PDFName.of('Alt'))],
    ['7.4.2', (raw) => firstOf(raw, 'H2').dict.set(PDFName.of('S'), PDFName.of('H4'))],
    ['7.5 (heads)', (raw) => firstOf(raw, 'TH').dict.delete(PDFName.of('A'))],
    ['7.5 (rows)', (raw) => firstOf(raw, 'TD').dict.set(PDFName.of('S'), PDFName.of('P'))],
    ['7.6', (raw) => firstOf(raw, 'LI').dict.set(PDFName.of('S'), PDFName.of('P'))],
    ['7.9', (raw) => firstOf(raw, 'Note').dict.delete(PDFName.of('ID'))],
    ['7.18.1', (raw) => annotationOf(raw, 'Widget').delete(PDFName.of('StructParent'))],
    [
      '7.18.3',
      (raw) => (raw.pages.find(({ dict }) => raw.annotations(dict).length > 0) as { dict: PDFDict }).dict.delete(PDFName.of('Tabs')),
    ],
    ['7.18.4', (raw) => annotationOf(raw, 'Widget').delete(PDFName.of('TU'))],
    ['7.18.5', (raw) => annotationOf(raw, 'Link').delete(PDFName.of('Contents'))],
  ];
  const firstOf = (raw: RawPdf, role: string): RawElement =>
    [...eachElement(raw.structure())].find((one) => one.role === role) as RawElement;
  const annotationOf = (raw: RawPdf, kind: string): PDFDict =>
    (raw.pages.flatMap(({ dict }) => raw.annotations(dict)).find(({ dict }) => raw.name(dict, 'Subtype') === kind) as { dict: PDFDict })
      .dict;

  test.each(damage)('%s', async (clause, harm) => {
    const raw = await RawPdf.of((made.get('one procedure as a form') as Made).bytes);
    const point = points.find((one) => one.clause === clause);
    expect(point?.wrong(raw)).toEqual([]);
    harm(raw);
    expect(point?.wrong(raw)).not.toEqual([]);
  });
});

describe('the text of the structure', () => {
  test('is the words of the book in order, soft hyphens and artifacts left out', async () => {
    let length = 0;
    for (const [name, { book, bytes, raw }] of made) {
      const read = bare(await structureText(bytes, raw));
      const placed = layoutBook(book, newFontSource(it.fonts).shaper);
      const drawn = bare(
        blockTexts(drawBook(placed))
          .map(({ text }) => text)
          .join(''),
      );
      expect(firstDifference(read, drawn), `${name}: file and pages`).toBe('');
      expect(firstDifference(read, expectedText(placed)), `${name}: file and book`).toBe('');
      length += read.length;
    }
    expect(length).toBeGreaterThan(200_000);
  });
});

/** Walks the raw tree; pdf.js says what each marked piece reads as. Figures are left out: their alternate text stands for them. */
async function structureText(bytes: Uint8Array, raw: RawPdf): Promise<string> {
  const warnings: unknown[] = [];
  const warn = console.warn;
  console.warn = (...words) => warnings.push(words);
  const task = pdfjs.getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 1 });
  const document = await task.promise;
  const texts = new Map<string, string>();
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const { items } = await page.getTextContent({ includeMarkedContent: true, disableNormalization: true });
    const open: (string | undefined)[] = [];
    for (const item of items) {
      if ('str' in item) {
        const key = open.filter((one) => one !== undefined).pop();
        if (key !== undefined) texts.set(key, `${texts.get(key) ?? ''}${item.str}`);
      } else if (item.type === 'endMarkedContent') open.pop();
      else open.push(item.id ?? undefined);
    }
  }
  await task.destroy();
  console.warn = warn;
  expect(warnings).toEqual([]);
  const out: string[] = [];
  const visit = (element: RawElement): void => {
    if (element.role === 'Figure') return;
    for (const kid of element.kids) {
      if ('role' in kid) visit(kid);
      else if ('mcid' in kid) out.push(texts.get(`p${kid.page.objectNumber}R_mc${kid.mcid}`) ?? '');
    }
  };
  visit(raw.structure());
  return out.join('');
}

function firstDifference(found: string, wanted: string): string {
  if (found === wanted) return '';
  let at = 0;
  while (found[at] === wanted[at]) at += 1;
  return `found ...${found.slice(Math.max(0, at - 40), at + 40)}, wanted ...${wanted.slice(Math.max(0, at - 40), at + 40)}`;
}
