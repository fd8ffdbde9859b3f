/** Bars beside what changed, line by line and row by row, and strokes where something is gone. Made-up blocks, laid out and read back. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { BookBlock, Flow, Inline } from '../../publishing/book.ts';
import { changedSections, withChanges } from '../../publishing/compose/changes.ts';
import { drawBook, layoutBook, newFontSource, type Shaper } from '../../publishing/layout/index.ts';
import { randomBook } from '../support/random-book.ts';
import { sample } from '../support/sample.ts';

let shaper: Shaper;
beforeAll(async () => {
  shaper = newFontSource((await sample()).fonts).shaper;
});

const words = (text: string): Inline[] => [{ kind: 'text', text }];
const paragraph = (text: string): BookBlock => ({ kind: 'paragraph', inline: words(text) });
const step = (label: string, text: string, more: Flow = []): BookBlock => ({
  kind: 'step',
  label,
  depth: 0,
  body: [paragraph(text), ...more],
  notices: [],
});
const table = (...rows: string[]): BookBlock => ({
  kind: 'table',
  head: [words('model'), words('limit')],
  rows: rows.map((row) => row.split(' | ').map(words)),
  align: [],
});
const bookOf = (blocks: Flow) => ({
  title: 'T',
  number: 'N',
  publisher: 'P',
  language: 'en',
  paper: 'a5' as const,
  binding: 'none' as const,
  duplex: false,
  draft: false,
  chapters: [{ title: 'C', startRight: false, blocks }],
});

/** Every line of the flow as printed, "|" before one with a bar, "^" and "v" where a stroke stands at its head or foot. */
function shown(blocks: Flow): string[] {
  const { pages } = layoutBook(bookOf(blocks), shaper);
  return pages.flatMap(({ slabs }) =>
    slabs.slice(0).map(({ slab }) => {
      const kinds = new Set(slab.decor.map((decor) => (decor.kind === 'gone' ? decor.at : decor.kind)));
      const said = slab.items.flatMap((item) =>
        item.kind === 'line'
          ? [item.line.parts.map((part) => (part.kind === 'page' ? '' : part.shaped.map(({ text }) => text).join(''))).join('')]
          : [],
      );
      return `${kinds.has('head') ? '^' : ''}${kinds.has('foot') ? 'v' : ''}${kinds.has('change') ? '|' : ''}${said.join(' ').trim()}`;
    }),
  );
}
/** Only what is marked. */
const marked = (now: Flow, before: Flow): string[] => shown(withChanges(now, before)).filter((line) => /^[|^v]/.test(line));

const long = (value: string): string =>
  `Hold the raise button until the platform stops at the top of its travel, then let it settle for ${value} before anybody goes near the edge of the pit or leans over the lip to read the scale on the rod.`;

describe('a bar', () => {
  test('stands beside the one line of a long paragraph in which a word is another', () => {
    const lines = marked([paragraph(long('10 min'))], [paragraph(long('8 min'))]);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain('10 min');
    expect(shown([paragraph(long('10 min'))]).length).toBeGreaterThan(3);
  });

  test('stands beside the whole of a paragraph that says something else', () => {
    const lines = marked([paragraph(long('10 min'))], [paragraph('Ask the field office.')]);
    expect(lines.length).toBe(shown([paragraph(long('10 min'))]).length - 1);
  });

  test('stands where words in the middle of a line went, and at the end where the last went', () => {
    expect(marked([paragraph('Loosen the bolt by hand.')], [paragraph('Loosen the bolt slowly by hand.')])).toEqual([
      '|Loosen the bolt by hand.',
    ]);
    expect(marked([paragraph('Loosen the bolt')], [paragraph('Loosen the bolt by hand')])).toEqual(['|Loosen the bolt']);
  });

  test('stands beside the row of a table with another limit, not beside the table', () => {
    const lines = marked([table('DL-20 | 4 mm', 'DL-25 | 5 mm', 'DL-30 | 6 mm')], [table('DL-20 | 4 mm', 'DL-25 | 4 mm', 'DL-30 | 6 mm')]);
    expect(lines).toEqual(['|DL-25 5 mm']);
  });

  test('stands beside the row after one that is gone, and the last where the last went', () => {
    expect(marked([table('A | 1', 'C | 3')], [table('A | 1', 'B | 2', 'C | 3')])).toEqual(['|C 3']);
    expect(marked([table('A | 1')], [table('A | 1', 'B | 2')])).toEqual(['|A 1']);
  });

  test('stands beside the item of a list, and the limit below a step, that is another', () => {
    const list = (...items: string[]): BookBlock => ({ kind: 'bullets', items: items.map((item) => [paragraph(item)]) });
    expect(marked([list('the strut', 'both pins', 'the lock')], [list('the strut', 'one pin', 'the lock')])).toEqual(['|• both pins']);
    const read = (limit: string) =>
      step('4', 'Read the drift from the dock.', [{ ...paragraph(`Limits: ${limit}`), style: 'limit' } as BookBlock]);
    expect(marked([read('0 to 4 mm')], [read('0 to 3 mm')])).toEqual(['|Limits: 0 to 4 mm']);
  });
});

describe('beside tables and figures a bar', () => {
  const captioned = (caption: string, notes: Flow = []): BookBlock => ({ ...table('A | 1'), caption, notes }) as BookBlock;

  test('stands beside a caption that says something else, not beside one whose number is another', () => {
    expect(marked([captioned('Table 3. Limits: drift')], [captioned('Table 2. Limits: drift')])).toEqual([]);
    expect(marked([captioned('Table 3. Limits: drift')], [captioned('Table 3. Limits: gap')])).toEqual(['|Table 3. Limits: drift']);
  });

  test('stands beside a note below a table that is another; where the last went, a stroke at its foot', () => {
    const [one, two] = [paragraph('Read at 20 degrees, the platform up.'), paragraph('Read at 30 degrees, the platform up.')];
    expect(marked([captioned('T', [one])], [captioned('T', [two])])).toEqual(['|Read at 20 degrees, the platform up.']);
    expect(marked([captioned('T')], [captioned('T', [two])])).toEqual(['vA 1']);
  });

  const figure = (caption: string, image: Extract<BookBlock, { kind: 'figure' }>['image']): BookBlock => ({
    kind: 'figure',
    alt: 'lip',
    caption,
    image,
  });
  const png = (last: number) => ({ kind: 'png', bytes: Uint8Array.from([1, 2, last]) }) as const;
  const svg = (width: number) =>
    ({
      kind: 'svg',
      source: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" width="10" height="10"><rect width="${width}" height="5"/></svg>`,
    }) as const;

  test('stands beside all of a figure whose file is another, whatever kind it is of', () => {
    for (const made of [png, svg, (last: number) => ({ ...png(last), kind: 'jpeg' }) as const]) {
      const lines = marked([figure('Figure 1. Lip', made(3))], [figure('Figure 1. Lip', made(4))]);
      expect(lines.at(-1)).toBe('|Figure 1. Lip');
      expect(lines).toHaveLength(2);
      expect(marked([figure('Figure 2. Lip', made(3))], [figure('Figure 1. Lip', made(3))])).toEqual([]);
    }
  });

  test('stands beside the caption alone where only that is another', () => {
    expect(marked([figure('Figure 1. Lip, from below', png(3))], [figure('Figure 1. Lip', png(3))])).toEqual([
      '|Figure 1. Lip, from below',
    ]);
  });
});

describe('a reference', () => {
  const to = (label: string, order: number): BookBlock =>
    step('9', 'Go back to', [
      { kind: 'paragraph', inline: [{ kind: 'link', text: `step ${label}`, anchor: `s${order}`, page: true, unlabelled: 'step' }] },
    ]);
  const at = (label: string, order: number, text: string): BookBlock => ({ ...step(label, text), anchor: `s${order}` }) as BookBlock;
  const [stop, wait, open] = ['Press the stop button.', 'Wait for the fan.', 'Take off the cover.'] as const;

  test('has no bar where it leads to the same step, which has another number now', () => {
    const before = [at('1', 0, stop), at('2', 1, open), to('2', 1)];
    expect(marked([at('1', 0, stop), at('2', 1, wait), at('3', 2, open), to('3', 2)], before)).toEqual(['|2 Wait for the fan.']);
  });

  test('has one where it leads to another step, though that has the number', () => {
    const before = [at('1', 0, stop), at('2', 1, open), to('2', 1)];
    const now = [at('1', 0, stop), at('2', 1, wait), at('3', 2, open), to('2', 1)];
    const lines = marked(now, before);
    expect(lines).toHaveLength(2);
    expect(lines[1]).toMatch(/^\|step 2/);
  });
});

describe('a stroke', () => {
  test('stands at the head of the step before which one is gone', () => {
    const now = [step('1', 'Press the stop button.'), step('2', 'Take off the cover.')];
    const before = [step('1', 'Press the stop button.'), step('2', 'Wait for the fan.'), step('3', 'Take off the cover.')];
    expect(marked(now, before)).toEqual(['^2 Take off the cover.']);
  });

  test('stands at the foot of the last where the end is gone, and at the head of the first where the beginning is', () => {
    const [a, b, c] = ['Press the stop button.', 'Wait for the fan.', 'Take off the cover.'] as const;
    expect(marked([paragraph(a), paragraph(b)], [paragraph(a), paragraph(b), paragraph(c)])).toEqual([`v${b}`]);
    expect(marked([paragraph(b), paragraph(c)], [paragraph(a), paragraph(b), paragraph(c)])).toEqual([`^${b}`]);
  });

  test('is drawn in the margin, across', () => {
    const { pages } = drawBook(layoutBook(bookOf(withChanges([paragraph('Two.')], [paragraph('One.'), paragraph('Two.')])), shaper));
    const strokes = (pages[0]?.ops ?? []).filter(
      (op) => op.op === 'path' && (op.path.points[2] as number) - (op.path.points[0] as number) === 7000,
    );
    expect(strokes).toHaveLength(1);
  });

  const list = (...items: string[]): BookBlock => ({ kind: 'bullets', items: items.map((item) => [paragraph(item)]) });

  test('stands at the foot of the last item where the last one went, and at the head of the next where two went', () => {
    expect(marked([list('the strut', 'both pins')], [list('the strut', 'both pins', 'the lock')])).toEqual(['v• both pins']);
    expect(marked([list('the strut', 'the lock')], [list('the strut', 'one pin', 'the bar', 'the lock')])).toEqual(['^• the lock']);
  });

  test('stands after a block that was altered where others after it are gone', () => {
    const [a, b] = [paragraph('Press the stop button and wait for the fan.'), paragraph('Take off the cover.')];
    const before = [paragraph('Press the stop button and listen for the fan.'), paragraph('Turn the crank.'), paragraph('Oil it.'), b];
    expect(marked([a, b], before)).toEqual(['|Press the stop button and wait for the fan.', '^Take off the cover.']);
  });

  test('belongs to the section that lost its end, and to the next heading where a whole section went', () => {
    const heading = (text: string): BookBlock => ({ kind: 'heading', level: 2, text, bookmark: false });
    const [a, b, c] = ['Press the stop button.', 'Wait for the fan.', 'Take off the cover.'].map(paragraph) as [
      BookBlock,
      BookBlock,
      BookBlock,
    ];
    const lostEnd = withChanges([heading('Stop'), a, heading('Open'), c], [heading('Stop'), a, b, heading('Open'), c]);
    expect(shown(lostEnd).filter((line) => /^[|^v]/.test(line))).toEqual(['vPress the stop button.']);
    expect(changedSections(lostEnd)).toEqual(['Stop']);
    expect(marked([heading('Stop'), a, heading('Open'), c], [heading('Stop'), a, heading('Wait'), b, heading('Open'), c])).toEqual([
      '^Open',
    ]);
  });

  test('of two steps, one new and one altered, the altered one is compared with what it was', () => {
    const now = [step('1', 'Ask who is near.'), step('2', long('10 min'))];
    const lines = marked(now, [step('1', long('8 min'))]);
    expect(lines).toHaveLength(2);
    expect(lines[1]).toContain('10 min');
  });

  test('tells of a notice that is gone from its step', () => {
    const notice = { kind: 'notice', word: 'danger', panel: 'DANGER', body: [paragraph('The platform falls.')] } as const;
    const now = step('1', 'Take off the cover.');
    expect(marked([now], [{ ...now, notices: [notice] } as BookBlock])).toEqual(['^1 Take off the cover.']);
  });
});

describe('on random documents', () => {
  const seeds = fc.tuple(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 400 }));
  const blocksOf = (seed: number): Flow => randomBook(seed, 25).book.chapters.flatMap(({ blocks }) => blocks);

  test('the same text has no mark', () => {
    for (const seed of [3, 4, 5, 6]) {
      const blocks = blocksOf(seed);
      expect(withChanges(blocks, structuredClone(blocks))).toEqual(blocks);
    }
  });

  test('marks change no word and no line break, and every difference has one', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 0, max: 50 }), ([seed, other], drop) => {
        const now = blocksOf(seed);
        // Mostly the same, with a stretch of another document in it.
        const at = drop % Math.max(1, now.length);
        const before = [...now.slice(0, at), ...blocksOf(other).slice(0, 3), ...now.slice(at + 1)];
        const made = withChanges(now, before);
        const bare = (lines: string[]): string[] => lines.map((line) => line.replace(/^[\^v|]+/, ''));
        expect(bare(shown(made))).toEqual(bare(shown(now)));
        const heading: BookBlock = { kind: 'heading', level: 2, text: 'H', bookmark: false };
        if (JSON.stringify(now) !== JSON.stringify(before) && now.length > 0 && now[at]?.kind === 'paragraph')
          expect(changedSections([heading, ...made.filter(({ kind }) => kind !== 'heading')])).toEqual(['H']);
      }),
      { numRuns: 25, seed: 7 },
    );
  });
});
