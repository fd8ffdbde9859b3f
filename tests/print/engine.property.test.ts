/**
 * The layout engine on random documents: nothing is lost, doubled, parted or outside. HANDSCLEAR_DOCUMENTS sets how many (2,000 for a full run),
 * HANDSCLEAR_SEED the first of them. A failure names its document; the same number makes the same one again.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { readFonts } from '../../electron/host/files/index.ts';
import { drawBook, layoutBook, newFontSource, type PlacedBook, type PlacedPage, type Shaper } from '../../publishing/layout/index.ts';
import type { Slab } from '../../publishing/layout/slab.ts';
import { type BlockText, bare, blockTexts, expectedText } from '../support/placed-text.ts';
import { type RandomBook, randomBook } from '../support/random-book.ts';

const documents = Number(process.env.HANDSCLEAR_DOCUMENTS ?? 120);
const firstSeed = Number(process.env.HANDSCLEAR_SEED ?? 1);

let shaper: Shaper;
beforeAll(async () => {
  shaper = newFontSource(await readFonts()).shaper;
});

interface Case {
  readonly random: RandomBook;
  readonly placed: PlacedBook;
  readonly blocks: readonly BlockText[];
}

function make(seed: number): Case {
  const random = randomBook(seed, 1 + (seed % 13));
  const placed = layoutBook(random.book, shaper);
  return { random, placed, blocks: blockTexts(drawBook(placed)) };
}

const lastOf = (page: PlacedPage | undefined): Slab | undefined => page?.slabs[page.slabs.length - 1]?.slab;
/** Page of the first block whose text holds a mark; entries of the contents only repeat it. */
const pageOf = (mark: string, blocks: readonly BlockText[], from = 0): number | undefined => {
  const found = blocks.find(({ role, text }) => role !== 'TOCI' && text.includes(mark));
  return from < 0 ? found?.pages[found.pages.length - 1] : found?.pages[0];
};
const tooTall = (placed: PlacedBook, said: string): boolean =>
  placed.notes.some(({ kind, message }) => kind === 'group-too-tall' && message.includes(said));

/** Every property is looked at on every document; the first one broken is told with the document's number. */
const properties: Readonly<Record<string, (one: Case) => void>> = {
  'no text is lost, doubled or out of order': ({ placed, blocks }) => {
    const found = bare(blocks.map(({ text }) => text).join(''));
    const wanted = expectedText(placed);
    if (found === wanted) return;
    let at = 0;
    while (found[at] === wanted[at]) at += 1;
    expect(`...${found.slice(Math.max(0, at - 30), at + 30)}`, `...${wanted.slice(Math.max(0, at - 30), at + 30)}`).toBe('');
  },

  'nothing stands outside the type area': ({ placed }) => {
    placed.pages.forEach(({ slabs, geometry: { body } }, page) => {
      for (const { slab, y } of slabs) {
        expect(y, `page ${page + 1}`).toBeGreaterThanOrEqual(0);
        expect(y + slab.height, `page ${page + 1}: ${slab.of}`).toBeLessThanOrEqual(body.height);
        for (const item of slab.items) {
          const inside = item.kind === 'line' ? [item.x, item.x + Math.max(item.width, item.line.width)] : artExtent(item.x, item.ops);
          expect(inside[0], `page ${page + 1}: ${slab.of}`).toBeGreaterThanOrEqual(-slack);
          expect(inside[1], `page ${page + 1}: ${slab.of}`).toBeLessThanOrEqual(body.width + slack);
        }
        for (const decor of slab.decor) if ('x' in decor) expect(decor.x + decor.width).toBeLessThanOrEqual(body.width + slack);
      }
    });
  },

  'no two lines overlap': ({ placed }) => {
    placed.pages.forEach(({ slabs }, page) => {
      const boxes = slabs.flatMap(({ slab, y }) =>
        slab.items.flatMap((item) => {
          if (item.kind !== 'line' || item.line.width === 0) return [];
          const size = Math.max(...item.line.parts.map(({ look }) => look.size));
          const spare = item.width - item.line.width;
          const left = item.x + (item.align === 'right' ? spare : item.align === 'center' ? spare / 2 : 0);
          return [{ left, right: left + item.line.width, top: y + item.baseline - 0.5 * size, foot: y + item.baseline + 0.15 * size }];
        }),
      );
      boxes.sort((a, b) => a.top - b.top);
      boxes.forEach((one, index) => {
        for (let k = index + 1; k < boxes.length && (boxes[k] as typeof one).top < one.foot; k += 1) {
          const other = boxes[k] as typeof one;
          expect(Math.min(one.right, other.right) - Math.max(one.left, other.left), `page ${page + 1}`).toBeLessThanOrEqual(slack);
        }
      });
    });
  },

  'no notice is parted from its step': ({ random, placed, blocks }) => {
    for (const { anchor, firstNotice, lastNotice, step } of random.guarded) {
      const at = pageOf(step, blocks);
      expect(pageOf(lastNotice, blocks, -1), `${anchor}: the end of the notice and the first line of the step`).toBe(at);
      if (pageOf(firstNotice, blocks) !== at) expect(tooTall(placed, 'notice'), `${anchor}: a notice in two parts is told`).toBe(true);
    }
  },

  'a guarded step that goes over a page repeats the head of its notice and is told': ({ random, placed, blocks }) => {
    const { nodes } = placed.kit.structure;
    for (const { anchor, step } of random.guarded) {
      const text = blocks.find((block) => block.text.includes(step)) as BlockText;
      const own = text.pages[0] as number;
      const body = nodes[text.node]?.parent as number;
      const pages = new Set(blocks.filter(({ node }) => partOf(node, body, nodes)).flatMap((block) => block.pages));
      for (const page of pages) {
        if (page <= own) continue;
        expect(tooTall(placed, `Page ${page + 1}: `), `${anchor} goes over to page ${page + 1}`).toBe(true);
        const head = placed.pages[page]?.slabs.find(({ slab }) => slab.of !== 'recall')?.slab;
        expect(head?.of, `${anchor} on page ${page + 1}`).toBe('notice-panel');
        expect(own < page, `${anchor}: the first line stays with the notice`).toBe(true);
      }
    }
  },

  'what guards a section is told again at the head of its further pages only, and read aloud once': ({ placed }) => {
    placed.pages.forEach(({ slabs, geometry }, index) => {
      const again = slabs.filter(({ slab }) => slab.of === 'recall');
      expect(again.length, `page ${index + 1}`).toBe(slabs.findLastIndex(({ slab }) => slab.of === 'recall') + 1);
      expect(again.length < slabs.length, `page ${index + 1}: nothing else stands there`).toBe(again.length > 0 || slabs.length > 0);
      expect(again.reduce((sum, { slab }) => sum + slab.height, 0)).toBeLessThanOrEqual(geometry.body.height / 2);
      for (const { slab } of again)
        for (const item of slab.items)
          for (const part of item.kind === 'line' ? item.line.parts : []) {
            expect(part.node).toBe(-1);
            // The page it names is one before.
            if (part.kind === 'page') expect(placed.anchors.get(part.anchor) as number).toBeLessThan(index);
          }
    });
  },

  'no heading stands at the foot of a page': ({ placed }) => {
    placed.pages.forEach((page, index) => {
      // A heading that ends its chapter has nothing to be parted from.
      if (lastOf(page)?.of !== 'heading' || placed.pages[index + 1]?.chapter !== page.chapter) return;
      expect(tooTall(placed, 'the heading'), `page ${index + 1}`).toBe(true);
    });
  },

  'a table that goes over a page has its head there again': ({ placed }) => {
    const { nodes } = placed.kit.structure;
    placed.pages.forEach((page, index) => {
      const first = page.slabs.find(({ slab }) => slab.of !== 'recall')?.slab;
      if (first === undefined || first.of === 'table-head' || first.of === 'notice-panel') return;
      const node = first.items.flatMap((item) => (item.kind === 'line' ? item.line.parts : [])).find((part) => part.node >= 0)?.node;
      const trail: string[] = [];
      let table = -1;
      for (let at = node ?? -1; at > 0; at = nodes[at]?.parent ?? -1) {
        trail.push(nodes[at]?.role ?? '');
        if (nodes[at]?.role === 'Table' && table < 0) table = at;
      }
      if (!trail.includes('TBody') || trail.indexOf('TBody') > trail.indexOf('Table')) return;
      const head = placed.pages
        .flatMap(({ slabs }) => slabs)
        .filter(
          ({ slab }) =>
            slab.of === 'table-head' &&
            slab.items.some((item) => item.kind === 'line' && partOf(item.line.parts[0]?.node ?? -1, table, nodes)),
        );
      const tall = head.reduce((sum, { slab }) => sum + slab.height, 0);
      expect(tall === 0 || tall > page.geometry.body.height / 4, `page ${index + 1} begins with a row and no head`).toBe(true);
    });
  },

  'references give the page their goal stands on': ({ random, placed, blocks }) => {
    for (const [anchor, mark] of random.marks) {
      const at = placed.anchors.get(anchor) as number;
      const guard = random.guarded.find((one) => one.anchor === anchor);
      expect(at, anchor).toBe(pageOf(guard?.firstNotice ?? mark, blocks));
    }
    const dead = placed.kit.contents.filter(({ anchor }) => !placed.anchors.has(anchor));
    expect(dead).toEqual([]);
  },
};

/** Rounding of single widths to whole millipoints adds up along a line. */
const slack = 100;

function artExtent(x: number, ops: Extract<Slab['items'][number], { kind: 'art' }>['ops']): readonly [number, number] {
  let [low, high] = [0, 0];
  for (const op of ops) {
    if (op.op !== 'path') continue;
    const xs = op.path.points.filter((_, index) => index % 2 === 0);
    low = Math.min(low, ...xs);
    high = Math.max(high, ...xs);
  }
  return [x + low, x + high];
}

function partOf(node: number, above: number, nodes: PlacedBook['kit']['structure']['nodes']): boolean {
  for (let at = node; at >= 0; at = nodes[at]?.parent ?? -1) if (at === above) return true;
  return false;
}

describe(`${documents} random documents`, () => {
  test('keep every property of the layout', { timeout: 3_600_000 }, () => {
    const seen = { pages: 0, guarded: 0, told: 0 };
    const broken: string[] = [];
    for (let seed = firstSeed; seed < firstSeed + documents; seed += 1) {
      let one: Case;
      try {
        one = make(seed);
      } catch (error) {
        broken.push(`document ${seed}: ${(error as Error).message}`);
        continue;
      }
      seen.pages += one.placed.pages.length;
      seen.guarded += one.random.guarded.length;
      seen.told += one.placed.notes.filter(({ kind }) => kind === 'group-too-tall').length;
      for (const [name, look] of Object.entries(properties))
        try {
          look(one);
        } catch (error) {
          broken.push(`document ${seed}: ${name}: ${(error as Error).message}`);
        }
    }
    console.log(`${documents} documents, ${seen.pages} pages, ${seen.guarded} guarded steps, ${seen.told} groups taller than a page`);
    expect(broken.slice(0, 12)).toEqual([]);
    // The generator really makes what is hard.
    if (documents >= 120) expect(Math.min(seen.told, seen.guarded / 20)).toBeGreaterThan(10);
  });
});
