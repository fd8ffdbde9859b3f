/** Figures on the page: a whole picture is drawn, a damaged one leaves its frame and is told of by what is wrong, and how large print can come out is known before. */
import { beforeAll, describe, expect, test } from 'vitest';
import { LEAST_PRINT, mostScale } from '../../procedures-schema/figures/index.ts';
import { PAPER_NAMES, type Paper } from '../../procedures-schema/registers/index.ts';
import { type Book, type Image, printBook } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource, type Shaper } from '../../publishing/layout/index.ts';
import { geometryOf } from '../../publishing/layout/paper.ts';
import { flipped, pictureFile } from '../support/figures.ts';
import { randomBook } from '../support/random-book.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let shaper: Shaper;
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
});

/** A book of one figure. */
function bookOf(image: Image, more: Partial<Book> = {}): Book {
  const { book } = randomBook(1, 1);
  const [chapter] = book.chapters;
  if (chapter === undefined) throw new Error('no chapter');
  return { ...book, ...more, chapters: [{ ...chapter, blocks: [{ kind: 'figure', alt: 'The scraper', image }] }] };
}

function drawn(image: Image, more: Partial<Book> = {}) {
  const { pages, images, notes } = drawBook(layoutBook(bookOf(image, more), shaper));
  return { shown: pages.flatMap(({ ops }) => ops).filter(({ op }) => op === 'image').length, images: images.length, notes };
}

describe('pictures', () => {
  test.each(['rgb.png', 'grey.png', 'alpha.png', 'rgb.jpg', 'progressive.jpg', 'cmyk.jpg'])('%s is drawn', (name) => {
    const one = drawn({ kind: name.endsWith('.png') ? 'png' : 'jpeg', bytes: pictureFile(name) });
    expect(one).toEqual({ shown: 1, images: 1, notes: [] });
  });

  test('a damaged one is not, and it is said what is wrong with it', () => {
    const bytes = pictureFile('rgb.png');
    const one = drawn({ kind: 'png', bytes: flipped(bytes, bytes.length - 60) });
    expect(one).toMatchObject({ shown: 0, images: 0, notes: [{ kind: 'bad-image' }] });
    expect(one.notes[0]?.message).toMatch(/^The figure "The scraper" cannot be drawn\. It is damaged: the check sum of its part IDAT/);
  });

  test.each([
    ['en', 'Missing here: a picture whose file is damaged. It should show: The scraper'],
    ['de', 'Hier fehlt ein Bild: Seine Datei ist beschädigt. Es soll zeigen: The scraper'],
  ])('a damaged one leaves a frame, and in it stands that it is missing (%s)', (language, said) => {
    const bytes = pictureFile('rgb.png');
    const { pages } = drawBook(layoutBook(bookOf({ kind: 'png', bytes: flipped(bytes, bytes.length - 60) }, { language }), shaper));
    const words = pages.flatMap(({ ops }) =>
      ops.flatMap((op) => (op.op === 'text' ? [op.run.map(({ texts }) => texts.join('')).join('')] : [])),
    );
    const plain = (text: string): string => text.replace(/\u00ad|\s/g, '');
    expect(plain(words.join(''))).toContain(plain(said));
  });

  test('a JPEG of four colours is told to be stored upside down, as its kind is', async () => {
    const { bytes } = await printBook(bookOf({ kind: 'jpeg', bytes: pictureFile('cmyk.jpg') }), it.fonts);
    expect(new TextDecoder('latin1').decode(bytes)).toMatch(
      /\/DeviceCMYK[\s\S]{0,80}\/Decode \[ ?1 0 1 0 1 0 1 0 ?\]|\/Decode \[ ?1 0 1 0 1 0 1 0 ?\][\s\S]{0,80}\/DeviceCMYK/,
    );
  });
});

describe('print in a drawing', () => {
  const sizes: readonly Paper[] = [...PAPER_NAMES, '120 x 170 mm', '160 x 230 mm', '300 x 440 mm'];

  test.each(sizes)('%s: no column is wider, and none of a guide much narrower, than what the checks reckon with', (paper) => {
    const { book } = randomBook(1, 1);
    for (const binding of ['left', 'top', 'none'] as const)
      for (const duplex of [true, false])
        for (const side of ['left', 'right'] as const) {
          const page = geometryOf({ ...book, paper, binding, duplex }, side);
          const reckoned = mostScale({ width: 1e9, height: 1 }, page) * 1e9;
          expect(page.body.width).toBeLessThanOrEqual(reckoned + 1);
          expect(page.body.width).toBeGreaterThan(reckoned - 45_000);
        }
  });

  test.each([
    [700, 0],
    [1400, 1],
  ])('a drawing %i px wide with print of 12 px is told of %i times', (width, times) => {
    const source = `<svg width="${width}" height="300"><text y="20" font-size="12">scraper</text></svg>`;
    const { notes } = drawn({ kind: 'svg', source }, { paper: 'a4' });
    expect(notes.filter(({ kind }) => kind === 'small-print')).toHaveLength(times);
    const page = geometryOf({ ...randomBook(1, 1).book, paper: 'a4' }, 'right');
    // Never told of by a check where the page has nothing to tell.
    expect(9000 * mostScale({ width: width * 750, height: 225_000 }, page) < LEAST_PRINT).toBe(times === 1);
  });
});
