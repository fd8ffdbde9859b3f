/**
 * What a typographer and a press operator look for on the pages of the sample guides: no print too small to read, enough contrast, no rivers, no
 * lines left far too short, boxes on a few common edges, nothing in the strip that is punched.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Flow, NoticeBlock } from '../../publishing/book.ts';
import { guideBook } from '../../publishing/index.ts';
import { type DrawnPage, drawBook, layoutBook, newFontSource, type PlacedBook, widthOfAll } from '../../publishing/layout/index.ts';
import { signals } from '../../publishing/layout/style.ts';
import { mm } from '../../publishing/layout/units.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
const books: { readonly id: string; readonly placed: PlacedBook; readonly pages: readonly DrawnPage[] }[] = [];
beforeAll(async () => {
  it = await sample();
  const { shaper } = newFontSource(it.fonts);
  for (const guide of it.report.facts.guides) {
    const placed = layoutBook(guideBook(guide, it.input), shaper);
    books.push({ id: guide.head.id, placed, pages: drawBook(placed).pages });
  }
});

type Rgb = readonly [number, number, number];
/** WCAG 2.2, definitions of relative luminance and contrast ratio. */
const luminance = (colour: Rgb): number => {
  const [r, g, b] = colour.map((value) =>
    value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4,
  ) as unknown as Rgb;
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (a: Rgb, b: Rgb): number => {
  const [high, low] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (high + 0.05) / (low + 0.05);
};
const grey = (colour: Rgb): Rgb => {
  const value = Math.round(0.299 * colour[0] + 0.587 * colour[1] + 0.114 * colour[2]);
  return [value, value, value];
};

describe('limits', () => {
  test('no line ends with the name of a model whose limit stands on the next', () => {
    let named = 0;
    for (const { placed, id } of books)
      for (const [index, { slabs }] of placed.pages.entries())
        for (const { slab } of slabs)
          for (const item of slab.items) {
            if (item.kind !== 'line') continue;
            const text = item.line.parts.map((part) => (part.kind === 'page' ? '' : part.shaped.map((one) => one.text).join(''))).join('');
            if (/^[A-Z]{2}-\d+[^:]*: ?\d/.test(text)) named += 1;
            expect(text.trimEnd(), `${id}, page ${index + 1}`).not.toMatch(/\b[A-Z]{2}-\d+:$/);
          }
    expect(named).toBeGreaterThan(30);
  });
});

describe('callouts', () => {
  test('the number of one stands on the line of its name', () => {
    let callouts = 0;
    for (const { placed, id } of books)
      for (const [index, { slabs }] of placed.pages.entries())
        for (const { slab } of slabs)
          for (const item of slab.items) {
            if (item.kind !== 'line') continue;
            const text = item.line.parts.map((part) => (part.kind === 'page' ? '8' : part.shaped.map((one) => one.text).join(''))).join('');
            if (/\(\d{1,2}(?:\)|,\s?page)/.test(text)) callouts += 1;
            expect(text, `${id}, page ${index + 1}`).not.toMatch(/^\(\d{1,2}(?:\)|,)|\(\d{1,2},$/);
          }
    expect(callouts).toBeGreaterThan(40);
  });
});

describe('print', () => {
  test('the smallest is 8 points in running text and margins, 7 in figures', () => {
    let [text, figure] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (const { placed, pages } of books)
      for (const { ops } of pages) {
        let inFigure = false;
        for (const op of ops) {
          if (op.op === 'begin') inFigure = placed.kit.structure.nodes[op.node]?.role === 'Figure';
          else if (op.op === 'text' && inFigure) figure = Math.min(figure, op.size);
          else if (op.op === 'text') text = Math.min(text, op.size);
        }
      }
    expect(text).toBeGreaterThanOrEqual(8000);
    expect(figure).toBeGreaterThanOrEqual(7000);
  });

  test('running text is 9 points or more with a lead of 120 percent (IEC/IEEE 82079-1 as remembered: from memory)', () => {
    for (const { placed } of books)
      for (const look of [placed.kit.sheet.body, placed.kit.sheet.cell, placed.kit.sheet.small]) {
        expect(look.size).toBeGreaterThanOrEqual(9000);
        expect(look.lead / look.size).toBeGreaterThanOrEqual(1.2);
      }
  });

  test('every word has a contrast of 4.5 against what it stands on, on a grey copy too (WCAG 2.2, 1.4.3)', () => {
    let seen = 0;
    for (const { pages } of books)
      for (const { ops } of pages) {
        const grounds: { x: number; y: number; right: number; foot: number; fill: Rgb }[] = [];
        let watermark = false;
        for (const op of ops) {
          if (op.op === 'artifact') watermark = op.part === 'Watermark';
          if (op.op === 'path' && op.fill !== undefined && op.path.segments === 'MLLLZ') {
            const xs = op.path.points.filter((_, k) => k % 2 === 0);
            const ys = op.path.points.filter((_, k) => k % 2 === 1);
            grounds.push({ x: Math.min(...xs), y: Math.min(...ys), right: Math.max(...xs), foot: Math.max(...ys), fill: op.fill });
          }
          if (op.op !== 'text' || watermark) continue;
          const under = grounds.filter(({ x, y, right, foot }) => op.x >= x && op.x < right && op.y > y && op.y <= foot).pop();
          const ground: Rgb = under?.fill ?? [255, 255, 255];
          expect(contrast(op.colour, ground), op.run.map(({ text }) => text).join('')).toBeGreaterThanOrEqual(4.5);
          expect(contrast(grey(op.colour), grey(ground))).toBeGreaterThanOrEqual(4.5);
          seen += 1;
        }
      }
    expect(seen).toBeGreaterThan(5000);
  });

  test('the graver the signal word, the more ink its frame and head have on a grey copy', () => {
    const [{ placed }] = books as [(typeof books)[number]];
    const inkOf = (word: keyof typeof signals): number => {
      const body: Flow = [
        { kind: 'paragraph', inline: [{ kind: 'text', text: 'The platform weighs 900 kg and falls when the oil under it is let go.' }] },
      ];
      const notice: NoticeBlock = { kind: 'notice', word, panel: word.toUpperCase(), body };
      const { cover: _, backCover: __, ...book } = placed.book;
      const chapters = [{ title: '', startRight: false, blocks: [notice] }];
      const [page] = drawBook(layoutBook({ ...book, chapters }, newFontSource(it.fonts).shaper)).pages;
      let ink = 0;
      for (const op of page?.ops ?? []) {
        if (op.op !== 'path' || op.path.segments !== 'MLLLZ') continue;
        const [x, y, right, , , foot] = op.path.points as [number, number, number, number, number, number];
        const [wide, high] = [right - x, foot - y];
        if (op.fill !== undefined) ink += wide * high * (255 - grey(op.fill as Rgb)[0]);
        if (op.stroke !== undefined) ink += 2 * (wide + high) * op.stroke.width * (255 - grey(op.stroke.colour as Rgb)[0]);
      }
      return ink;
    };
    const inks = (['danger', 'warning', 'caution', 'notice'] as const).map(inkOf);
    expect(inks.every((ink) => ink > 0)).toBe(true);
    // Each clearly more than the next.
    for (const [index, ink] of inks.slice(1).entries()) expect((inks[index] as number) / ink).toBeGreaterThan(1.25);
  });

  test('the four signal panels differ on a grey copy in word, symbol or ground', () => {
    for (const { ground, word } of Object.values(signals)) expect(contrast(grey(word), grey(ground))).toBeGreaterThanOrEqual(4.5);
  });
});

/** Lines of running text, paragraph by paragraph: shortfall in ems and where the word spaces stand. */
interface SetLine {
  readonly loose: number;
  /** The same, were its last word to go to the next line. */
  readonly pulled: number;
  /** Its length, and that of its last word with the space after it, in ems. */
  readonly ems: number;
  readonly word: number;
  readonly gaps: readonly (readonly [number, number])[];
  readonly last: boolean;
  readonly text: string;
}
function paragraphs(placed: PlacedBook): readonly (readonly SetLine[])[] {
  const byNode = new Map<number, SetLine[]>();
  for (const { slabs } of placed.pages)
    for (const { slab } of slabs)
      for (const item of slab.items) {
        if (item.kind !== 'line' || (slab.of !== 'text' && slab.of !== 'notice')) continue;
        const first = item.line.parts[0];
        // Titles are set narrower on purpose.
        if (first === undefined || first.node < 0 || first.look.even) continue;
        let node = first.node;
        while (placed.kit.structure.nodes[node]?.role === 'Link') node = placed.kit.structure.nodes[node]?.parent as number;
        const gaps: [number, number][] = [];
        let x = item.x;
        for (const part of item.line.parts) {
          let at = x;
          for (const one of part.kind === 'text' ? part.shaped : []) {
            const wide = widthOfAll([one], part.look.size);
            if (one.text === ' ') gaps.push([at, at + wide]);
            at += wide;
          }
          x += part.width;
        }
        const text = item.line.parts.map((part) => (part.kind === 'text' ? part.shaped.map((one) => one.text).join('') : '#')).join('');
        const list = byNode.get(node) ?? [];
        byNode.set(node, list);
        const stretch = first.look.size * 3;
        list.push({
          loose: (item.width - item.line.width) / stretch,
          pulled: (item.x + item.width - (gaps.at(-1)?.[0] ?? item.x)) / stretch,
          ems: item.line.width / first.look.size,
          word: (item.x + item.line.width - (gaps.at(-1)?.[0] ?? item.x)) / first.look.size,
          gaps,
          last: false,
          text,
        });
      }
  return [...byNode.values()].map((list) => list.map((line, index) => ({ ...line, last: index === list.length - 1 })));
}

describe('lines', () => {
  test('none but the last falls short by more than 1.85 times the stretch', () => {
    const loose = books.flatMap(({ placed }) =>
      paragraphs(placed).flatMap((lines) => lines.filter(({ last, loose: by }) => !last && by > 1.85).map(({ text }) => text)),
    );
    expect(loose).toEqual([]);
    expect(books.flatMap(({ placed }) => paragraphs(placed).filter((lines) => lines.length > 1)).length).toBeGreaterThan(150);
  });

  test('a short word stands alone on a last line only where the line above would become too loose', () => {
    const alone = books.flatMap(({ placed }) =>
      paragraphs(placed).flatMap((lines) => {
        const [above, last] = lines.slice(-2);
        if (!above || !last || last.ems >= 4.5 || above.word + last.ems < 6) return [];
        // The breaker weighs in whole numbers and looks further up than one line: a little less than what it allows is too loose already.
        return above.pulled < (last.ems < 3 ? 1.5 : 1.3) ? [`${above.text} / ${last.text}`] : [];
      }),
    );
    expect(alone).toEqual([]);
  });

  test('of more than 200 paragraphs hardly one ends with a line of one word, and hardly a line is loose', () => {
    const all = books.flatMap(({ placed }) => paragraphs(placed)).filter((lines) => lines.length > 1);
    expect(all.length).toBeGreaterThan(200);
    expect(all.filter((lines) => !/\s/.test(lines.at(-1)?.text.trim() ?? '')).length).toBeLessThanOrEqual(1);
    expect(all.flatMap((lines) => lines.filter(({ last, loose }) => !last && loose > 1.5)).length).toBeLessThanOrEqual(1);
  });

  test('no river: word spaces stand under each other on three lines at most', () => {
    let longest: string[] = [];
    for (const { placed } of books)
      for (const lines of paragraphs(placed)) {
        let open = (lines[0]?.gaps ?? []).map((gap) => ({ gap, from: 0 }));
        lines.forEach((line, index) => {
          if (index === 0) return;
          open = line.gaps.map((gap) => {
            // Half of the space at least stands under the one above.
            const above = open.filter(({ gap: [a, b] }) => Math.min(b, gap[1]) - Math.max(a, gap[0]) >= (gap[1] - gap[0]) / 2);
            return { gap, from: Math.min(index, ...above.map(({ from }) => from)) };
          });
          for (const { from } of open)
            if (index - from + 1 > longest.length) longest = lines.slice(from, index + 1).map(({ text }) => text);
        });
      }
    expect(longest.length, longest.join('\n')).toBeLessThanOrEqual(3);
  });

  test('no title leaves one short word alone on its last line', () => {
    for (const { placed } of books)
      for (const { slabs } of placed.pages)
        slabs.forEach(({ slab }, index) => {
          const above = slabs[index - 1]?.slab;
          if (slab.of !== 'heading' || above?.of !== 'heading' || slab.gap > 0) return;
          const width = (one: typeof slab): number => Math.max(0, ...one.items.map((item) => (item.kind === 'line' ? item.line.width : 0)));
          expect(width(slab)).toBeGreaterThan(width(above) / 3);
        });
  });
});

describe('places', () => {
  test('tables, notices and boxes stand on few edges', () => {
    for (const { placed } of books) {
      const { body } = (placed.pages[0] as PlacedBook['pages'][number]).geometry;
      const lefts = new Map<number, number>();
      const rights = new Set<number>();
      for (const { slabs, turned } of placed.pages) {
        if (turned) continue;
        for (const { slab } of slabs) {
          for (const decor of slab.decor)
            if (decor.kind === 'box') {
              lefts.set(decor.x, (lefts.get(decor.x) ?? 0) + 1);
              rights.add(decor.x + decor.width);
            }
          if (slab.of !== 'table-head') continue;
          const art = slab.items.find((item) => item.kind === 'art');
          if (art !== undefined) lefts.set(art.x, (lefts.get(art.x) ?? 0) + 1);
        }
      }
      // The edge of the page's frame, the text's, and that of substeps in procedures with one or two letters before them.
      expect(lefts.size, JSON.stringify([...lefts])).toBeLessThanOrEqual(6);
      expect([...rights]).toEqual([body.width]);
    }
  });

  test('nothing but tabs and bars stands in the margins, and nothing at all in the strip that is punched', () => {
    for (const { placed, pages } of books)
      pages.forEach(({ ops, width }, index) => {
        const { side } = placed.pages[index] as PlacedBook['pages'][number];
        // Two holes of 6 mm, 12 mm from the edge to their middle (ISO 838), and a little for the bend of the sheet.
        const strip = mm(18);
        for (const op of ops) {
          const xs = op.op === 'text' ? [op.x] : op.op === 'path' ? op.path.points.filter((_, k) => k % 2 === 0) : [];
          for (const x of xs) expect(side === 'right' ? x >= strip : x <= width - strip, `page ${index + 1}`).toBe(true);
        }
      });
  });
});
