import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { markupInPieces, markupWhole, pieceCount, plainPieces } from '../../support/format.ts';
import { generateProcedure } from '../../support/generate.ts';

interface Example {
  readonly markdown: string;
  readonly number: number;
}
const { tests: examples } = createRequire(import.meta.url)('commonmark-spec') as { tests: readonly Example[] };

/**
 * The parser lets an item with an unclosed code fence run into the item that ends it ("- ```" before "-"): an end past the next
 * sibling's start says nothing, so ends are compared up to there, and without the blanks they may take along.
 */
const trimmed = (nodes: readonly Spanned[], text: string, limit: number): Spanned[] =>
  nodes.map((node, index) => {
    const stop = Math.min(node.end, nodes[index + 1]?.start ?? limit, limit);
    const end = node.start + text.slice(node.start, stop).trimEnd().length;
    // How a fence that nobody closed ends inside an item is the parser's own affair: it is reported, and its text is not used.
    const code = node.type === 'code' ? { value: '', closed: false } : {};
    return { ...node, ...code, end, ...(node.children === undefined ? {} : { children: trimmed(node.children, text, stop) }) };
  });
interface Spanned {
  readonly type?: string;
  readonly start: number;
  readonly end: number;
  readonly children?: readonly Spanned[];
}

/** Where the parser ends an item around a fence that nobody closed is a quirk of its own; the examples above cover what matters. */
const leavesNoFenceOpen = (text: string): void => fc.pre(!JSON.stringify(markupWhole(text)).includes('"closed":false'));

const same = (text: string): void => {
  const [pieces, whole] = [markupInPieces(text), markupWhole(text)].map((markup) =>
    trimmed(markup as readonly Spanned[], text, text.length),
  );
  expect(pieces).toEqual(whole);
};

/** Lines that meet each other in odd ways: containers, fences, lettered lines, what may and may not interrupt a paragraph. */
const line = fc.constantFrom(
  '',
  '',
  '',
  'text',
  'Do this:',
  '## Heading',
  '## Records',
  '   # indented heading',
  '1. one',
  '2. two',
  '10. ten',
  '3) three',
  '1.',
  '- bullet',
  '* star',
  '-',
  '  - inner',
  '   text at three',
  '    text at four',
  ' text at one',
  '      - deep',
  '   1. inner one',
  '   2. inner two',
  '1. - both',
  '1. ## heading in item',
  '- ```',
  '```',
  '   ```',
  '~~~',
  '```js',
  ':::danger',
  ':::warning {#x}',
  '   :::caution',
  ':::',
  '   :::',
  '::::notice',
  '> quote',
  '> - item in quote',
  '> ```',
  '>',
  'A. lettered',
  'B. lettered',
  '   a) inner lettered',
  '   b) inner lettered',
  '(a) bracketed',
  'Step 3: said',
  '3.1 decimal',
  '| a | b |',
  '|---|---|',
  '| 1 | 2 |',
  '   | a | b |',
  '   |---|---|',
  '---',
  '***',
  '\ttab',
  '1.\ttab item',
  '  \ttab after blanks',
);

/** Lines like those of real procedures, and what comes near to being more than text. */
const plainLine = fc.constantFrom(
  '1. Shut the [air valve].',
  '2. {#read} Read the [gap]: it must be 0.5 mm.',
  '   - If it is over the limit, stop.',
  '   - Otherwise go on.',
  '   * starred',
  '   1. Hold it.',
  '   2. Look along it.',
  '   It goes on here.',
  '      Deeper than the text.',
  '     - deeper still',
  '- one thing',
  '- another',
  '-  two blanks',
  'A line of text.',
  '3.5 mm is no item',
  '12) with a bracket',
  '{#limits}',
  '![A figure](figures/x.svg){#x}',
  'ends in a blank ',
  'a \\* star',
  '## Heading {#here}',
  '## Closed ##',
  '## Sharp C#',
  '1. ',
  '1.  two blanks',
  '1986. A year',
  '10. ten',
  '    2. inner of ten',
  '  - inner of a bullet',
  '\u00a0not a blank',
  '“Quoted.”',
  '(1) round',
  '= equals',
  'a | b',
  '| model | lower (mm) |',
  '|---|--:|',
  '| :--- | :---: |',
  '| K-1 | 0.5 |',
  '| K-2 |  |',
  '|| x |',
  '| 3 |',
  '| one | two | three |',
  '| a `b|c` | [d] |',
  '| a \\| b | c |',
  '|',
  '||',
  '| trailing | ',
  ':::danger',
  ':::warning {#w}',
  ':::',
  '<b>tag</b>',
  'http://example.org',
  '*emphasis*',
  '__strong__',
);

describe('a file read piece by piece is the file read whole, node for node and place for place', () => {
  // CommonMark 0.31.2: the examples of the specification itself, read under our profile.
  test.each(examples.map((example) => [example.number, example.markdown] as const))('CommonMark example %i', (_, markdown) => {
    same(markdown);
  });

  test('all examples one after the other', () => {
    same(examples.map((example) => example.markdown).join('\n\n'));
  });

  test('random documents', () => {
    fc.assert(
      fc.property(fc.array(line, { maxLength: 24 }), fc.constantFrom('\n', '\r\n'), (lines, newline) => {
        leavesNoFenceOpen(lines.join(newline));
        same(lines.join(newline));
      }),
      { numRuns: 3000 },
    );
  });

  test('random documents in a procedure section', () => {
    fc.assert(
      fc.property(fc.array(line, { maxLength: 24 }), (lines) => {
        leavesNoFenceOpen(`## Work\n${lines.join('\n')}`);
        same(`## Work\n${lines.join('\n')}`);
      }),
      { numRuns: 3000 },
    );
  });
});

describe('what is read by hand is what the parser reads, node for node and place for place', () => {
  const same = (text: string): number => {
    const { plain } = plainPieces(text);
    for (const { own, parsed } of plain) expect(own, text).toEqual(parsed);
    return plain.length;
  };
  test('the examples of CommonMark', () => {
    expect(examples.reduce((sum, { markdown }) => sum + same(markdown), 0)).toBeGreaterThan(200);
  });
  const texts = fc.array(fc.oneof(line, { weight: 4, arbitrary: plainLine }), { maxLength: 8 });
  test.each(['', '## Work\n'])('random documents after %j', (head) => {
    let seen = 0;
    fc.assert(
      fc.property(texts, fc.constantFrom('\n', '\r\n'), (lines, newline) => {
        seen += same(`${head}${lines.join(newline)}`);
      }),
      { numRuns: Number(process.env.HANDSCLEAR_DOCUMENTS ?? 3000) },
    );
    expect(seen).toBeGreaterThan(400);
  });
  test('random tables and notices', () => {
    const cell = fc.constantFrom('', ' ', 'a', ' b ', '  c', 'd  ', ' 0.5 mm ', '---', ':-:', ' `x` ', ' [y] ', ' - ', '\u00a0e');
    const barred = (cells: readonly string[]): string => `|${cells.join('|')}|`;
    const row = fc.array(cell, { minLength: 1, maxLength: 4 }).map(barred);
    const under = fc.constantFrom('---', ' --- ', ':-', '-:', ' :-: ', '-', ' - -');
    // As many marks below as cells above, mostly: then it is a table.
    const head = fc
      .tuple(fc.array(fc.tuple(cell, under), { minLength: 1, maxLength: 3 }), fc.integer({ min: 0, max: 9 }))
      .map(([columns, more]) => [columns.map(([above]) => above), columns.map(([, below]) => below), more] as const);
    const tables = fc
      .tuple(head, fc.array(fc.oneof({ weight: 9, arbitrary: row }, plainLine), { maxLength: 3 }))
      .map(([[above, below, more], rows]) => [barred(above), barred(more === 0 ? [...below, '-'] : below), rows] as const);
    const notices = fc
      .tuple(
        fc.constantFrom(':::danger', ':::notice {#n}', '::: caution'),
        fc.array(plainLine, { maxLength: 3 }),
        fc.constantFrom(':::', '::::', ''),
      )
      .map(([open, inside, close]) => [open, inside, close] as const);
    let seen = 0;
    fc.assert(
      fc.property(fc.oneof(tables, notices), ([first, second, third]) => {
        seen += same([first, second, third].flat().join('\n'));
      }),
      { numRuns: Number(process.env.HANDSCLEAR_DOCUMENTS ?? 3000) },
    );
    expect(seen).toBeGreaterThan(500);
  });
  test('most of a procedure', () => {
    const { plain, left } = plainPieces(generateProcedure(7).text.replace(/^---[\s\S]*?\n---\n/, ''));
    expect(left / (plain.length + left)).toBeLessThan(0.1);
  });
});

test('a long list is cut at every item', () => {
  const items = Array.from({ length: 100 }, (_, n) => `${n + 1}. Clean the [scraper].\n   - If it is worn, stop.\n`).join('');
  expect(pieceCount(`## Work\n${items}`)).toBeGreaterThanOrEqual(100);
});
