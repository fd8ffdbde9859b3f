/** What a reader's page list calls a page is what is printed on it: labels read back by pdf.js, held against the words at the foot of each page. */
import * as pdfjs from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, expect, test } from 'vitest';
import type { Book } from '../../publishing/book.ts';
import { guideBook, printBook, procedureBook, shortGuide, shortProcedure } from '../../publishing/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
beforeAll(async () => {
  it = await sample();
});
const guide = () => it.report.facts.guides[0] as Sample['report']['facts']['guides'][number];
const procedure = () => it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as Parameters<typeof procedureBook>[0];

interface Foot {
  /** As pdf.js lists it. */
  readonly label: string;
  /** What is printed: document number, page, how many there are; undefined where none is. */
  readonly printed: { readonly number: string; readonly page: string; readonly of: string } | undefined;
}

async function feet(book: Book): Promise<readonly Foot[]> {
  const task = pdfjs.getDocument({ data: printBook(book, it.fonts).bytes, useSystemFonts: false, verbosity: 0 });
  const document = await task.promise;
  const labels = (await document.getPageLabels()) ?? [];
  const out: Foot[] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const { items } = await (await document.getPage(number)).getTextContent();
    const words = items.flatMap((item) => ('str' in item ? [{ said: item.str.trim(), height: item.transform[5] as number }] : []));
    const page = words.flatMap(({ said, height }) => (height < 72 ? [...said.matchAll(/^Page (\S+) of (\S+)$/g)] : [])).at(0);
    // At the foot of a guide's page; on a checklist in the head, or above the title of the first leaf.
    const stamp = words
      .flatMap(({ said, height }) => (height < 72 || height > 700 ? [...said.matchAll(/^(OM-\d+)(?= *Rev|$)/g)] : []))
      .at(0);
    out.push({ label: labels[number - 1] ?? '', printed: page && { number: stamp?.[1] ?? '', page: page[1] ?? '', of: page[2] ?? '' } });
  }
  await task.destroy();
  return out;
}

const ROMAN = ['i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii', 'viii', 'ix', 'x', 'xi', 'xii', 'xiii', 'xiv', 'xv', 'xvi'];

test.each([
  ['a guide', () => guideBook(guide(), it.input)],
  ['a guide on one side of the paper', () => guideBook(guide(), it.input, { duplex: false })],
  ['a procedure', () => procedureBook(procedure(), it.input)],
] as const)('%s: each page is called what is printed at its foot', async (_, book) => {
  const pages = await feet(book());
  const numbered = pages.filter(({ printed }) => printed);
  expect(numbered.length).toBeGreaterThan(pages.length * 0.7);
  for (const { label, printed } of numbered) expect(label).toBe(printed?.page);
  // Small roman numerals, then from one; none is left out, also where a page carries no number.
  const front = pages.findIndex(({ label }) => label === '1');
  expect(pages.map(({ label }) => label)).toEqual([
    ...ROMAN.slice(0, front),
    ...Array.from({ length: pages.length - front }, (__, index) => String(index + 1)),
  ]);
  for (const { label, printed } of numbered) expect(printed?.of).toBe(/\d/.test(label) ? String(pages.length - front) : ROMAN[front - 1]);
});

test.each([
  ['checklists of a guide', () => shortGuide(guide(), it.input)],
  ['a checklist', () => shortProcedure(procedure(), it.input)],
] as const)('%s: each leaf is called by its procedure and the page printed at its foot', async (_, book) => {
  const pages = await feet(book());
  for (const { label, printed } of pages) expect(label).toBe(printed === undefined ? '' : `${printed.number} p. ${printed.page}`);
  const of = (number: string) => pages.filter(({ printed }) => printed?.number === number);
  for (const number of new Set(pages.flatMap(({ printed }) => printed?.number ?? []))) {
    expect(of(number).map(({ printed }) => printed?.page)).toEqual(of(number).map((__, index) => String(index + 1)));
    for (const { printed } of of(number)) expect(printed?.of).toBe(String(of(number).length));
  }
});
