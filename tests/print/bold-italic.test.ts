/** Emphasis inside bold words: a face of its own, in the file only where it is used, whole for readers, and as wide as it was measured. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { create } from 'fontkit';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import type { Book, BookBlock, Inline } from '../../publishing/book.ts';
import { printBook, procedureBook, shortProcedure } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';
import { hasTool } from '../support/tools.ts';

let it: Sample;
const folder = mkdtempSync(join(tmpdir(), 'handsclear-lean-'));
beforeAll(async () => {
  it = await sample();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const WORDS = 'Vorsicht Työ';
const bookOf = (inline: readonly Inline[], more: readonly BookBlock[] = []): Book => ({
  title: 'T',
  number: 'N',
  publisher: 'P',
  language: 'en',
  paper: 'a4',
  binding: 'left',
  duplex: false,
  draft: false,
  chapters: [{ title: 'C', startRight: false, blocks: [{ kind: 'paragraph', inline }, ...more] }],
});
const facesOf = (book: Book): Map<string, string> => {
  const ops = drawBook(layoutBook(book, newFontSource(it.fonts).shaper)).pages.flatMap((page) => page.ops);
  return new Map(ops.flatMap((op) => (op.op === 'text' ? op.run.map(({ face, text }) => [text.trim(), face] as const) : [])));
};

describe('emphasis inside strong words', () => {
  test('is written in Markdown and printed in bold italics, in the guide and on the checklist', () => {
    const texts = it.texts.map((file) =>
      file.path.includes('OM-3140')
        ? { ...file, text: file.text.replace('Send everyone off the platform', '**Send *everyone* off** *the* ***whole*** platform') }
        : file,
    );
    const library = checkLibrary(texts, it.paths).facts;
    const facts = library.procedures.find(({ head }) => head.id === 'OM-3140') as (typeof library.procedures)[number];
    for (const make of [procedureBook, shortProcedure]) {
      const ops = drawBook(layoutBook(make(facts, { ...it.input, library }), newFontSource(it.fonts).shaper)).pages.flatMap(
        (page) => page.ops,
      );
      const leaning = ops.flatMap((op) => (op.op === 'text' ? op.run.map(({ face, text }) => `${text.trim()} ${face}`) : []));
      for (const one of ['everyone boldItalic', 'the italic', 'whole boldItalic', 'Send bold']) expect(leaning).toContain(one);
    }
  });

  test('in the head of a table and in a notice of a checklist it stays bold too, and strong words in leaning ones lean', () => {
    const em = (text: string): Inline[] => [{ kind: 'em', text }];
    const faces = facesOf(
      bookOf(
        [{ kind: 'text', text: 'plain' }],
        [
          { kind: 'table', head: [em('limit')], rows: [[em('cell')]], align: [] },
          { kind: 'notice', word: 'danger', panel: 'DANGER', compact: true, body: [{ kind: 'paragraph', inline: em('never') }] },
          { kind: 'paragraph', style: 'state', inline: [{ kind: 'strong', text: 'off' }] },
        ],
      ),
    );
    expect([faces.get('limit'), faces.get('cell'), faces.get('never'), faces.get('off')]).toEqual([
      'boldItalic',
      'italic',
      'boldItalic',
      'boldItalic',
    ]);
  });

  test('in a drawing, bold and leaning text has the face too', () => {
    const source =
      '<svg xmlns="http://www.w3.org/2000/svg" width="200" height="90"><text x="9" y="50" font-weight="bold" font-style="italic">Lip</text></svg>';
    expect(facesOf(bookOf([], [{ kind: 'figure', alt: 'lip', image: { kind: 'svg', source } }])).get('Lip')).toBe('boldItalic');
  });

  test('a script that the family lacks leans in bold in the other family', () => {
    const { shaper } = newFontSource(it.fonts);
    expect(shaper.shape('boldItalic', 'Հայ').map(({ face }) => face)).toEqual(['fallbackBoldItalic']);
  });
});

describe('in the file', () => {
  const bytes = () => printBook(bookOf([{ kind: 'strong-em', text: WORDS }]), it.fonts).bytes;

  test('it is as wide as it was measured, and as the font itself says', async () => {
    const font = create(it.fonts.boldItalic);
    const run = font.layout(WORDS, { kern: true, tnum: true, liga: false, clig: false });
    const own = run.positions.reduce((sum, { xAdvance }) => sum + Math.round((xAdvance * 1000) / font.unitsPerEm), 0);
    const units = newFontSource(it.fonts)
      .shaper.shape('boldItalic', WORDS)
      .reduce((sum, one) => sum + one.units, 0);
    expect(units).toBe(own);
    const document = await getDocument({ data: bytes(), useSystemFonts: false, verbosity: 0 }).promise;
    const { items } = await (await document.getPage(1)).getTextContent();
    const shown = items.filter((item) => 'str' in item && item.str.trim() !== '' && WORDS.includes(item.str.trim()));
    const words = shown.flatMap((item) => ('str' in item ? [item] : []));
    expect(words.map(({ str }) => str).join('')).toBe(WORDS);
    const size = words[0]?.transform[0] as number;
    expect(words.reduce((sum, { width }) => sum + width, 0)).toBeCloseTo((units * size) / 1000, 1);
    await document.destroy();
  });

  test.skipIf(!hasTool('pdffonts') || !hasTool('pdftotext'))(
    'it is embedded, cut to its letters, and read back; a book without it does not carry it',
    () => {
      const fonts = (name: string, data: Uint8Array): string => {
        const file = join(folder, name);
        writeFileSync(file, data);
        return spawnSync('pdffonts', [file], { encoding: 'utf8' }).stdout;
      };
      const line = fonts('lean.pdf', bytes())
        .split('\n')
        .find((one) => one.includes('SourceSans3-SemiboldIt'));
      // Name, type, encoding, then embedded, cut to a subset, with a map to Unicode.
      expect(line).toMatch(/^[A-Z]{6}\+SourceSans3-SemiboldIt +CID TrueType +Identity-H +yes yes yes /);
      expect(spawnSync('pdftotext', [join(folder, 'lean.pdf'), '-'], { encoding: 'utf8' }).stdout).toContain(WORDS);
      expect(fonts('plain.pdf', printBook(bookOf([{ kind: 'strong', text: WORDS }]), it.fonts).bytes)).not.toContain('SemiboldIt');
    },
  );
});
