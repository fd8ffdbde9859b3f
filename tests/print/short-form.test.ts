/**
 * Paper checklists of the sample library as placed pages: two sheets at most, every label, notice and limit where it belongs, pages named
 * only by references that leave their own, leaves that can be replaced. And made-up lists of lines, of which nothing may be lost or parted.
 */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { eachNotice, type ProcedureFacts } from '../../procedures-schema/index.ts';
import type { Book, NoticeBlock, Task } from '../../publishing/book.ts';
import { limitsPrinted, noticeWords, scopeOf } from '../../publishing/compose/index.ts';
import { shortGuide, shortProcedure } from '../../publishing/index.ts';
import { drawBook, type FontSource, layoutBook, newFontSource, type Op, type PlacedBook } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

type Slab = PlacedBook['pages'][number]['slabs'][number]['slab'];

let it: Sample;
let source: FontSource;
const laid = new Map<string, { readonly placed: PlacedBook; readonly facts: ProcedureFacts }>();
beforeAll(async () => {
  it = await sample();
  source = newFontSource(it.fonts);
  for (const facts of it.report.facts.procedures)
    for (const paper of ['a4', 'letter'] as const)
      laid.set(`${facts.head.id} ${paper}`, { placed: layoutBook(shortProcedure(facts, it.input, { paper }), source.shaper), facts });
});

const folded = (text: string): string => text.replace(/\u00ad/g, '').replace(/\s+/g, '');
const wordsOf = (ops: readonly Op[]): string => ops.flatMap((op) => (op.op === 'text' ? op.run.flatMap((run) => run.texts) : [])).join('');
const textOf = (placed: PlacedBook): string =>
  folded(
    drawBook(placed)
      .pages.map(({ ops }) => wordsOf(ops))
      .join(''),
  );

describe('paper checklists of the sample library', () => {
  test('each stands on two sheets at most, with nothing forced, missing or dead', () => {
    for (const [name, { placed }] of laid) {
      expect(placed.pages.length, name).toBeLessThanOrEqual(4);
      expect(drawBook(placed).notes, name).toEqual([]);
    }
  });

  const onA5 = (facts: ProcedureFacts, language?: string): PlacedBook =>
    layoutBook(shortProcedure(facts, it.input, { paper: 'a5', ...(language === undefined ? {} : { language }) }), source.shaper);

  test('on A5 all but the three longest stand on two sheets too, and none takes more than three; nor in German', () => {
    const longer = (language?: string): readonly string[] =>
      it.report.facts.procedures.flatMap((facts) => {
        const pages = onA5(facts, language).pages.length;
        expect(pages, facts.head.id).toBeLessThanOrEqual(6);
        return pages > 4 ? [`${facts.head.id} ${pages}`] : [];
      });
    expect(longer()).toEqual(['OM-1120 5', 'OM-3140 5', 'OM-4140 5']);
    expect(longer('de')).toEqual(['OM-1110 5', 'OM-1120 6', 'OM-3140 5', 'OM-4140 5']);
  });

  test('the smallest type is taken only where it saves a sheet, and alone and in a set alike', () => {
    const bodies = (placed: PlacedBook): readonly number[] => {
      const drawn = drawBook(placed);
      return placed.chapters.map((chapter) => {
        const counts = new Map<number, number>();
        drawn.pages.forEach(({ ops }, index) => {
          if (placed.pages[index]?.chapter?.number !== chapter.number) return;
          for (const op of ops) if (op.op === 'text') counts.set(op.size, (counts.get(op.size) ?? 0) + op.run.length);
        });
        expect(Math.min(...counts.keys()), chapter.number).toBeGreaterThanOrEqual(8500);
        return (counts.get(9500) ?? 0) > 100 ? 9.5 : 9;
      });
    };
    const small = it.report.facts.procedures.filter((facts) => bodies(onA5(facts))[0] === 9).map(({ head }) => head.id);
    expect(small).toEqual(['OM-1110']);
    for (const guide of it.report.facts.guides) {
      const set = layoutBook(shortGuide(guide, it.input, { paper: 'a5' }), source.shaper);
      const inSet = set.chapters.filter((_, index) => bodies(set)[index] === 9).map(({ number }) => number);
      expect(inSet).toEqual(set.chapters.map(({ number }) => number).filter((number) => number === 'OM-1110'));
      expect(drawBook(set).notes).toEqual([]);
    }
  });

  test('boxes for a value before and after are as large below each other as beside each other, and none lies on another', () => {
    let stacked = 0;
    for (const facts of it.report.facts.procedures)
      for (const { ops } of drawBook(onA5(facts)).pages) {
        const boxes = ops.flatMap((op) => (op.op === 'field' ? [op] : []));
        for (const before of boxes.filter(({ name }) => name.endsWith(', Before'))) {
          const after = boxes.find(({ name }) => name === before.name.replace(/Before$/, 'After'));
          if (after === undefined) throw new Error(`${before.name} has no box for after`);
          expect([after.width, after.height]).toEqual([before.width, before.height]);
          // 25 mm are 70,866 millipoints; the field stands within the edge of its box.
          expect(before.width).toBeGreaterThan(62_000);
          expect(after.x >= before.x + before.width || after.y >= before.y + before.height, before.name).toBe(true);
          if (after.x === before.x) stacked += 1;
        }
      }
    expect(stacked).toBeGreaterThan(3);
  });

  test('on A5 nothing stands nearer to an edge than a desk printer prints', () => {
    // 4 mm, common practice, no source.
    const edge = 11_339;
    for (const facts of it.report.facts.procedures) {
      const placed = onA5(facts);
      drawBook(placed).pages.forEach(({ ops }, index) => {
        const { width, height } = (placed.pages[index] as PlacedBook['pages'][number]).geometry;
        for (const op of ops) {
          const [xs, ys] =
            op.op === 'path'
              ? [op.path.points.filter((_, at) => at % 2 === 0), op.path.points.filter((_, at) => at % 2 === 1)]
              : op.op === 'text'
                ? // From the head of a capital to the foot of a descender, of the print font.
                  [[op.x], [op.y - op.size * 0.66, op.y + op.size * 0.21]]
                : [[], []];
          for (const x of xs) expect(Math.min(x, width - x), facts.head.id).toBeGreaterThanOrEqual(edge);
          for (const y of ys) expect(Math.min(y, height - y), facts.head.id).toBeGreaterThanOrEqual(edge);
        }
      });
    }
  });

  test('no leaf is turned between two lines of one proof, nor before the earth that ends it', () => {
    const state = (slab: Slab | undefined): string | undefined => {
      const band = slab?.decor.find(({ kind }) => kind === 'band');
      return band?.kind === 'band' ? band.state : undefined;
    };
    let proofs = 0;
    const leaves = [...laid].map(([name, { placed }]) => [name, placed] as const);
    for (const [name, placed] of [...leaves, ...it.report.facts.procedures.map((facts) => [facts.head.id, onA5(facts)] as const)])
      placed.pages.forEach(({ slabs }, index) => {
        proofs += slabs.filter(({ slab }) => state(slab) === 'cut').length;
        const [head, next] = placed.pages[index + 1]?.slabs ?? [];
        if (index % 2 === 1 || head === undefined || head.slab.anchors !== undefined) return;
        const clamps = next?.slab.anchors?.some((anchor) => anchor.startsWith('doc OM-5120 step 15')) === true;
        expect(state(slabs.at(-1)?.slab) === 'cut' && (state(next?.slab) === 'cut' || clamps), `${name}, page ${index + 1}`).toBe(false);
      });
    expect(proofs).toBeGreaterThan(300);
  });

  test('boxes are as large on the smallest leaf as on a large one, and no print is smaller than 8.5 points', () => {
    const facts = it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as ProcedureFacts;
    const boxes = (paper: 'a4' | 'a5') => {
      const ops = drawBook(layoutBook(shortProcedure(facts, it.input, { paper }), source.shaper)).pages.flatMap((page) => page.ops);
      const sizes = ops.flatMap((op) => (op.op === 'text' ? [op.size] : []));
      const fields = ops.flatMap((op) => (op.op === 'field' ? [op] : []));
      const least = (kind: 'tick' | 'text'): number =>
        Math.min(...fields.filter((one) => one.kind === kind).map(({ width, height }) => Math.min(width, height)));
      return { print: Math.min(...sizes), tick: least('tick'), text: least('text') };
    };
    const [large, little] = [boxes('a4'), boxes('a5')];
    expect([little.tick, little.text]).toEqual([large.tick, large.text]);
    expect(little.print).toBeGreaterThanOrEqual(8500);
  });

  test('those of a guide for one model are its procedures for that model, and a procedure for another has none', () => {
    const [guide] = it.report.facts.guides as [Parameters<typeof shortGuide>[0]];
    const input = { ...it.input, model: 'DL-25' };
    expect(shortGuide(guide, it.input).chapters).toHaveLength(6);
    expect(shortGuide(guide, input).chapters.map(({ number }) => number)).toEqual(['OM-3140', 'OM-3150', 'OM-3160']);
    for (const facts of it.report.facts.procedures) {
      const made = () => shortProcedure(facts, input).chapters.length;
      if (facts.head.models.some(({ name }) => name === 'DL-25')) expect(made()).toBe(1);
      else expect(made, facts.head.id).toThrow(`${facts.head.id} is not for DL-25. It is for: `);
    }
  });

  test('the energy on the machine is told as in the guide: how long it takes to go, and on which machines it is', () => {
    const said = (name: string): string => textOf((laid.get(`${name} a4`) as { readonly placed: PlacedBook }).placed);
    expect(said('OM-4110')).toContain(folded('Let out or held: gone 60 min after it is cut off.'));
    expect(said('OM-5110')).toContain(
      folded('drive link, 565 V DC. Cut off: main isolator off. Let out or held: gone 10 min after it is cut off.'),
    );
    expect(said('OM-5110')).toContain(folded('line air, 6 bar (only with pop-up transfer).'));
  });

  test('a branch names its model once: on a chip, or in its condition', () => {
    const lip = it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as ProcedureFacts;
    const tasks = shortProcedure(lip, it.input).chapters.flatMap(({ blocks }) =>
      blocks.flatMap((block) => (block.kind === 'tasks' ? block.items.filter((item) => item.kind === 'task') : [])),
    );
    const lines = tasks
      .filter(({ line }) => line.some(({ text }) => text.includes('DL-')))
      .map(({ line }) => line.map(({ text }) => text).join(''));
    expect(lines.map((line) => line.replace(/: use.*|DL-\d+\u2002Use.*/, ''))).toEqual([
      '',
      'For the DL-25 up to serial number 2199',
      'For the DL-25 from serial number 2200',
      '',
    ]);
    for (const line of lines) expect(line.match(/DL-\d+/g)).toHaveLength(1);
  });

  test('on a small leaf no range of a limit is broken, and no limit takes more lines than it needs', () => {
    let limits = 0;
    for (const facts of it.report.facts.procedures)
      for (const { slabs } of layoutBook(shortProcedure(facts, it.input, { paper: 'a5' }), source.shaper).pages)
        for (const { slab } of slabs)
          for (const item of slab.items) {
            if (item.kind !== 'line') continue;
            const text = item.line.parts.map((part) => (part.kind === 'page' ? '' : part.shaped.map((one) => one.text).join(''))).join('');
            if (!/\d to \d.* (?:mm|bar|s|N|Ω|°C)\b/.test(text.replaceAll('\u00a0', ' '))) continue;
            limits += 1;
            expect(text, facts.head.id).not.toMatch(/(?:^|\()to |\bto$/);
          }
    expect(limits).toBeGreaterThan(40);
  });

  test('every label stands in order, with its box', () => {
    let steps = 0;
    for (const [name, { placed, facts }] of laid) {
      const boxes = new Set(drawBook(placed).pages.flatMap(({ ops }) => ops.flatMap((op) => (op.op === 'field' ? [op.name] : []))));
      for (const { fullLabel, section } of facts.read.labels.steps) {
        expect(boxes, name).toContain(`${facts.head.id}, ${section.title}, ${fullLabel}`);
        steps += 1;
      }
      // The order is that of the anchors.
      const pages = facts.read.labels.steps.map(({ order }) => placed.anchors.get(`doc ${facts.head.id} step ${order}`) ?? -1);
      expect(pages, name).toEqual([...pages].sort((a, b) => a - b));
      expect(pages[0], name).toBe(0);
    }
    expect(steps).toBeGreaterThan(1500);
  });

  test('on a small leaf too a section says whole how it is come to, at every head that stands again', () => {
    let heads = 0;
    for (const facts of it.report.facts.procedures) {
      const text = textOf(layoutBook(shortProcedure(facts, it.input, { paper: 'a5' }), source.shaper));
      const begun = text.split('onlywhenastep').length - 1;
      expect(text.split('onlywhenastepsendsyouhere').length - 1, facts.head.id).toBe(begun);
      heads += begun;
    }
    expect(heads).toBeGreaterThan(20);
  });

  test('no notice is dropped or cut short', () => {
    let notices = 0;
    for (const [name, { placed, facts }] of laid) {
      const text = textOf(placed);
      const scope = scopeOf(facts, it.input, new Set());
      for (const { notice } of eachNotice(facts.tree.sections)) {
        const said = folded(noticeWords(notice, scope));
        expect(said.length, name).toBeGreaterThan(10);
        expect(text, name).toContain(folded(scope.words.panel[notice.word]) + said);
        notices += 1;
      }
    }
    expect(notices).toBeGreaterThan(40);
  });

  test('every limit stands on the page of a step that reads it, after the words of that step', () => {
    let limits = 0;
    for (const { placed, facts } of laid.values()) {
      const scope = scopeOf(facts, it.input, new Set());
      const pages = drawBook(placed).pages.map(({ ops }) => folded(wordsOf(ops)));
      for (const measurement of facts.head.measurements)
        for (const { text } of limitsPrinted(measurement, scope)) {
          expect(pages.some((page) => page.includes(folded(text)))).toBe(true);
          limits += 1;
        }
    }
    expect(limits).toBeGreaterThan(50);
  });

  test('a reference names its page when that is another one, and names the right one', () => {
    let away = 0;
    let near = 0;
    for (const [name, { placed }] of laid)
      placed.pages.forEach((page, index) => {
        for (const { slab } of page.slabs)
          for (const item of slab.items) {
            if (item.kind !== 'line') continue;
            const targets = new Set(item.line.parts.flatMap((part) => (part.kind !== 'chip' && part.to !== undefined ? [part.to] : [])));
            for (const to of targets) {
              const numbered = item.line.parts.some((part) => part.kind === 'page' && part.anchor === to);
              if (placed.anchors.get(to) === index) near += 1;
              else {
                away += 1;
                // The number may stand on the next line of the same step.
                const rest = slab.items.some(
                  (other) => other.kind === 'line' && other.line.parts.some((part) => part.kind === 'page' && part.anchor === to),
                );
                expect(numbered || rest, `${name}, page ${index + 1}: ${to}`).toBe(true);
              }
            }
          }
      });
    expect(Math.min(away, near)).toBeGreaterThan(20);
  });

  test('a leaf replaced alone leaves the others as they are', () => {
    for (const guide of it.report.facts.guides) {
      const { pages } = layoutBook(shortGuide(guide, it.input), source.shaper);
      const chapters = new Map<string, number>();
      pages.forEach((page, index) => {
        if (page.chapter === undefined) return;
        const number = page.chapter.number ?? '';
        if (!chapters.has(number)) expect(index % 2, number).toBe(0);
        chapters.set(number, (chapters.get(number) ?? 0) + 1);
      });
      for (const [number, count] of chapters) expect(laid.get(`${number} a4`)?.placed.pages.length, number).toBe(count);
      expect(chapters.size).toBeGreaterThan(5);
    }
  });

  test('every leaf carries number, revision and page', () => {
    for (const { placed, facts } of laid.values())
      drawBook(placed).pages.forEach(({ ops }, index, all) => {
        const words = folded(wordsOf(ops));
        expect(words).toContain(folded(`${facts.head.id} Rev ${facts.head.revision} ${facts.head.date}`));
        expect(words).toContain(`Page${index + 1}of${all.length}`);
      });
  });

  test('no two things to fill in share a name but those in the heads of the leaves', () => {
    for (const [name, { placed }] of laid) {
      const heads = new Set(placed.book.short?.head.map(({ field }) => `${placed.book.number}, ${field}`));
      const names = drawBook(placed).pages.flatMap(({ ops }) => ops.flatMap((op) => (op.op === 'field' ? [op.name] : [])));
      const own = names.filter((one) => !heads.has(one));
      expect(new Set(own).size, name).toBe(own.length);
    }
  });

  test('no print is smaller than 8.5 points', () => {
    for (const [name, { placed }] of laid) {
      const sizes = drawBook(placed).pages.flatMap(({ ops }) => ops.flatMap((op) => (op.op === 'text' ? [op.size] : [])));
      expect(Math.min(...sizes), name).toBeGreaterThanOrEqual(8500);
    }
  });

  test('a draft says so on every leaf', () => {
    const facts = it.report.facts.procedures[0] as ProcedureFacts;
    const drawn = drawBook(layoutBook(shortProcedure(facts, { ...it.input, draft: true }), source.shaper));
    for (const { ops } of drawn.pages) expect(wordsOf(ops)).toContain('DRAFT: NOT FOR FIELD USE');
  });
});

describe('made-up lists', () => {
  const words = fc.array(fc.stringMatching(/^[a-z]{1,12}$/), { minLength: 1, maxLength: 40 }).map((all) => all.join(' '));
  const notice = words.map(
    (text): NoticeBlock => ({
      kind: 'notice',
      word: 'warning',
      panel: 'WARNING',
      compact: true,
      body: [{ kind: 'paragraph', inline: [{ kind: 'text', text }] }],
    }),
  );
  const task = fc
    .record({
      line: words,
      depth: fc.integer({ min: 0, max: 2 }),
      notices: fc.array(notice, { maxLength: 2 }),
      boxes: fc.constantFrom<readonly string[]>([], ['Reading'], ['Before', 'After']),
      initials: fc.boolean(),
    })
    .map(({ line, depth, notices, boxes, initials }, ..._: unknown[]) => ({ line, depth, notices, boxes, initials }));

  test('nothing is lost, doubled or parted, and nothing leaves the type area', () => {
    fc.assert(
      fc.property(fc.array(task, { minLength: 1, maxLength: 45 }), fc.constantFrom<'a4' | 'a5'>('a4', 'a5'), (made, paper) => {
        const items = made.map(
          ({ line, depth, notices, boxes, initials }, index): Task => ({
            kind: 'task',
            label: String(index + 1),
            anchor: `step ${index}`,
            depth,
            line: [{ kind: 'text', text: line }],
            notices,
            readings: boxes.length === 0 ? [] : [{ name: 'gap', limits: [{ text: '1 to 2 mm' }], boxes, unit: 'mm' }],
            ...(initials ? { initials: '' } : {}),
            field: `step ${index}`,
          }),
        );
        const book: Book = {
          title: 'Made up',
          number: 'X-1',
          publisher: 'X',
          language: 'en',
          paper,
          binding: 'left',
          duplex: true,
          draft: false,
          chapters: [{ title: 'T', number: 'X-1', startRight: true, blocks: [{ kind: 'tasks', heading: 'List', anchor: 'list', items }] }],
          short: { head: [{ label: 'Serial number', share: 1000, field: 'serial' }] },
        };
        const placed = layoutBook(book, source.shaper);
        const text = textOf(placed);
        let at = 0;
        made.forEach(({ line, notices }, index) => {
          for (const one of notices) {
            const paragraph = one.body[0];
            const said = paragraph?.kind === 'paragraph' ? (paragraph.inline[0]?.text ?? '') : '';
            at = text.indexOf(`WARNING${folded(said)}`, at);
            expect(at).toBeGreaterThanOrEqual(0);
          }
          const step = text.indexOf(`${index + 1}${folded(line)}`, at);
          expect(step).toBeGreaterThanOrEqual(at);
          at = step;
        });
        for (const { slabs, geometry } of placed.pages) {
          const last = slabs[slabs.length - 1]?.slab;
          expect(['notice', 'notice-panel', 'heading']).not.toContain(last?.of);
          for (const { slab, y } of slabs) {
            expect(y + slab.height).toBeLessThanOrEqual(geometry.body.height);
            for (const item of slab.items)
              if (item.kind === 'line') {
                expect(item.line.width).toBeLessThanOrEqual(item.width);
                expect(item.x + item.width).toBeLessThanOrEqual(geometry.body.width);
              }
          }
        }
        expect(placed.notes).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});
