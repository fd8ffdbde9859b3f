/**
 * PDF/UA-1 (ISO 14289-1:2014) on every sample guide, as bound book, as paper checklists, and as forms with attachments: each point that a
 * program can check, with its clause (tests/support/pdf-ua.ts). The text of the structure, read by pdf.js, against the words the book holds.
 * And the points themselves: a file damaged on purpose is found out.
 */
import * as pdfjs from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Book } from '../../publishing/book.ts';
import { attachmentsOf, guideBook, printBook, procedureBook, shortGuide } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource } from '../../publishing/layout/index.ts';
import { notAsked, points } from '../support/pdf-ua.ts';
import { damages } from '../support/pdf-ua-damage.ts';
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
    await keep(`${id} in German`, guideBook(guide, it.input, { language: 'de' }));
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
  test.each(damages.map((damage) => [damage.clause, damage.does, damage] as const))('%s: %s', async (clause, _, { harm }) => {
    // One with everything in it that can be damaged.
    const kind = clause === '7.11' ? ' short form' : clause === '7.14' ? ' short' : ' as a form';
    const whole = [...made].find(([name]) => name.endsWith(kind))?.[1] as Made;
    const raw = await RawPdf.of(whole.bytes);
    const point = points.find((one) => one.clause === clause);
    expect(point?.wrong(raw)).toEqual([]);
    harm(raw);
    expect(point?.wrong(raw)).not.toEqual([]);
  });

  test('no point is without a damage that it finds', () => {
    const found = new Set(damages.map(({ clause }) => clause));
    expect(points.map(({ clause }) => clause).filter((clause) => !found.has(clause))).toEqual([]);
  });
});

test('every clause of chapter 7 has its points, or it is said why not', () => {
  const asked = new Set(points.flatMap(({ clause }) => clause.match(/\d+(?:\.\d+)*/g) ?? []));
  const parts = (clause: string, count: number): readonly string[] => Array.from({ length: count }, (_, index) => `${clause}.${index + 1}`);
  // From memory of the standard: how many parts each has that is cut into parts.
  const inParts: Readonly<Record<string, number>> = { '7.4': 4, '7.18': 8, '7.21': 8, '7.21.3': 3, '7.21.4': 2 };
  const all = (clause: string): readonly string[] => {
    const count = inParts[clause];
    return count === undefined ? [clause] : parts(clause, count).flatMap(all);
  };
  const clauses = parts('7', 21).flatMap(all);
  expect(clauses.filter((clause) => !asked.has(clause) && !Object.hasOwn(notAsked, clause))).toEqual([]);
  expect(Object.keys(notAsked).filter((clause) => asked.has(clause) || !clauses.includes(clause))).toEqual([]);
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
