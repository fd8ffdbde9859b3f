/**
 * The bytes of the sample guides, judged by outside programs: qpdf (syntax), poppler's pdftotext and pdffonts (what a reader finds),
 * mutool (a second reader). And by themselves: the same library gives the same bytes.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ProcedureFacts } from '../../procedures-schema/index.ts';
import { inlineOf, scopeOf } from '../../publishing/compose/index.ts';
import { quoteMarks } from '../../publishing/compose/quote-marks.ts';
import { guideBook, type Printed, printBook, printSheets, procedureBook } from '../../publishing/index.ts';
import { type Sample, sample } from '../support/sample.ts';
import { hasTool } from '../support/tools.ts';

let it: Sample;
const folder = mkdtempSync(join(tmpdir(), 'handsclear-pdf-'));
const printed = new Map<string, { readonly file: string; readonly made: Printed; readonly holds: readonly ProcedureFacts[] }>();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(async () => {
  it = await sample();
  const keep = (name: string, made: Printed, holds: readonly ProcedureFacts[]): void => {
    const file = join(folder, `${name}.pdf`);
    writeFileSync(file, made.bytes);
    printed.set(name, { file, made, holds });
  };
  const byNumber = new Map(it.report.facts.procedures.map((facts) => [facts.head.id, facts]));
  for (const guide of it.report.facts.guides) {
    const holds = guide.tree.parts.flatMap((part) => part.entries.map(({ document }) => byNumber.get(document) as ProcedureFacts));
    keep(guide.head.id, printBook(guideBook(guide, it.input), it.fonts), holds);
  }
  const first = byNumber.get('OM-3140') as ProcedureFacts;
  keep('single', printBook(procedureBook(first, it.input, { paper: 'letter' }), it.fonts), [first]);
  keep('draft', printBook(procedureBook(first, { ...it.input, draft: true }), it.fonts), []);
  keep('model', printBook(procedureBook(first, { ...it.input, model: 'DL-20' }), it.fonts), []);
});

test('each page is told when it is written, and nothing of the bytes is otherwise for it', () => {
  const told: string[] = [];
  const { made } = printed.get('single') as { made: Printed };
  const first = it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as ProcedureFacts;
  const again = printBook(procedureBook(first, it.input, { paper: 'letter' }), it.fonts, {
    written: (page, of) => told.push(`${page} of ${of}`),
  });
  expect(told).toEqual(Array.from({ length: made.pages }, (_, index) => `${index + 1} of ${made.pages}`));
  expect(Buffer.compare(again.bytes, made.bytes)).toBe(0);
  // Of folded sheets the pages are told too, not the sheets.
  const pages: number[] = [];
  const folded = printSheets(procedureBook(first, it.input), it.fonts, { kind: 'booklet', sheet: 'a4' }, (page) => pages.push(page));
  expect(pages).toEqual(Array.from({ length: folded.pages }, (_, index) => index + 1));
});

const run = (program: string, ...words: string[]): string => {
  const { stdout, stderr, status } = spawnSync(program, words, { encoding: 'utf8', maxBuffer: 1e9 });
  expect(status, stderr).toBe(0);
  return stdout;
};
/** As Unicode's compatibility characters have them: U+2170 is i. Good for thirty-nine. */
const roman = (value: number): string =>
  'x'.repeat(Math.floor(value / 10)) + (value % 10 === 0 ? '' : String.fromCodePoint(0x2170 + (value % 10) - 1).normalize('NFKD'));
const folded = (text: string): string => text.replace(/\u00ad\s*/g, '').replace(/\s+/g, '');

describe('same input, same bytes', () => {
  test('a guide printed twice', () => {
    const guide = it.report.facts.guides[0] as (typeof it.report.facts.guides)[number];
    const again = printBook(guideBook(guide, it.input), it.fonts);
    expect(Buffer.compare(Buffer.from(again.bytes), Buffer.from((printed.get(guide.head.id) as { made: Printed }).made.bytes))).toBe(0);
  });
});

describe.skipIf(!hasTool('qpdf'))('qpdf', () => {
  test('accepts every file without a word', () => {
    for (const { file } of printed.values()) expect(run('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found');
  });
});

describe.skipIf(!hasTool('pdftotext'))('poppler', () => {
  test('finds every step of every procedure, label before text, in order', () => {
    let steps = 0;
    for (const { file, holds } of printed.values()) {
      const text = folded(run('pdftotext', '-raw', file, '-'));
      for (const facts of holds) {
        const { tree, read, head } = facts;
        // From the first page of the procedure's own steps on.
        let at = text.indexOf(folded(tree.sections[0]?.title ?? ''), text.indexOf(folded(`${head.id} Rev`)));
        const scope = scopeOf(facts, it.input, new Set(holds.map((one) => one.head.id)));
        for (const labelled of read.labels.steps) {
          // As printed, up to the first reference that takes a page number along.
          const inline = inlineOf(labelled.step.lead, scope, labelled);
          const stop = inline.findIndex((one) => one.kind === 'link' && one.page);
          const shown = quoteMarks(inline, 'en').slice(0, stop < 0 ? undefined : stop + 1);
          const words = folded(stop < 0 ? shown.join('') : shown.join('').replace(/\)$/, '')).slice(0, 30);
          const found = text.indexOf(folded(labelled.label) + words, at);
          expect(found, `${head.id}, step ${labelled.label}: ${words}`).toBeGreaterThanOrEqual(at);
          at = found;
          steps += 1;
        }
      }
    }
    expect(steps).toBeGreaterThan(700);
  });

  test('the contents give the page each procedure and section is on', () => {
    let entries = 0;
    for (const [name, { file, made }] of printed) {
      if (!name.startsWith('OM-')) continue;
      const pages = run('pdftotext', '-layout', file, '-').split('\f');
      const contents = pages.filter((page) => /^\s*Contents\s*$/m.test(page.slice(0, 200)) && !page.includes('List of pages in force  '));
      const rows = contents.flatMap((page) => [...page.matchAll(/^ *(\S.*?) [. ]*?\s{2,}(\d+|[ivxl]+)\s*$/gm)]);
      const called = pages.map((page) => /Page (\d+|[ivxl]+) of/.exec(page)?.[1]);
      for (const [, title = '', number] of rows) {
        if (title.startsWith('OM-') && title.includes('Rev')) continue;
        const page = folded(pages[called.indexOf(number)] ?? '');
        expect(page, `${title} on page ${number}`).toContain(folded(title.replace(/^OM-\d+\s+/, '').replace(/[. ]+$/, '')));
        entries += 1;
      }
      expect(made.pages).toBe(pages.length - 1);
    }
    expect(entries).toBeGreaterThan(60);
  });

  test('every page carries number, revision and its own page number', () => {
    for (const [name, { file, made }] of printed) {
      // The covers carry the number in words; guides have one at the back too.
      const inside = name.startsWith('OM-') ? made.pages - 1 : made.pages;
      const pages = run('pdftotext', '-layout', file, '-').split('\f').slice(0, inside);
      // Front matter counts in small roman numerals, the cover included; the rest from one.
      const front = pages.findIndex((page) => /Page 1 of/.test(page));
      expect(front, name).toBeGreaterThan(1);
      pages.slice(1).forEach((page, at) => {
        const index = at + 1;
        const number = index < front ? `${roman(index + 1)} of ${roman(front)}` : `${index - front + 1} of ${made.pages - front}`;
        expect(page).toContain(`Page ${number}`);
        expect(page).toMatch(/OM-\d{4} {1,3}Rev [A-Z]/);
      });
    }
  });

  test('a draft says so on every page, the cover included', () => {
    const { file, made } = printed.get('draft') as { file: string; made: Printed };
    const pages = run('pdftotext', '-layout', file, '-').split('\f').slice(0, made.pages);
    for (const page of pages) expect(page).toContain('DRAFT: NOT FOR FIELD USE');
  });

  test('an edition for one model leaves the others out and keeps the labels', () => {
    const text = run('pdftotext', '-layout', (printed.get('model') as { file: string }).file, '-');
    expect(text).not.toContain('seal kit 28');
    expect(text).toMatch(/^ *42 +Check the oil tightness/m);
    expect(text).toMatch(/Only what applies to DL-20 is/);
  });

  test('every font is embedded, as a subset, with a way back to text', () => {
    for (const { file } of printed.values()) {
      const rows = run('pdffonts', file).trim().split('\n').slice(2);
      expect(rows.length).toBeGreaterThan(1);
      for (const row of rows) expect(row).toMatch(/^[A-Z]{6}\+.* yes yes yes +\d+ +0$/);
    }
  });

  test('the structure tree reads as a document', () => {
    const tree = run('pdfinfo', '-struct', (printed.get('single') as { file: string }).file);
    for (const role of ['Sect', 'H1', 'H2', 'L ', 'LI', 'Lbl', 'LBody', 'Table', 'TH', 'TD', 'Figure', 'Note', 'TOC', 'Link'])
      expect(tree).toMatch(new RegExp(`^ *${role}`, 'm'));
  });
});

describe.skipIf(!hasTool('mutool'))('mutool, a second reader', () => {
  test('draws every page without a complaint, and lists the bookmarks', () => {
    const { file } = printed.get('OM-8010') as { file: string };
    const { stderr, status } = spawnSync('mutool', ['draw', '-F', 'txt', '-o', '/dev/null', file], { encoding: 'utf8' });
    // A build without colour profiles says so; that is not about our file.
    const said = stderr.split('\n').filter((line) => /error|warning/i.test(line) && !line.includes('ICC support'));
    expect([status, said]).toEqual([0, []]);
    const outline = run('mutool', 'show', file, 'outline');
    expect(outline).toContain('Check the lip cylinder for drift and renew its seal');
  });
});
