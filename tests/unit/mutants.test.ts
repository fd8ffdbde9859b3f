/**
 * Bad input: whatever is done to the bytes of a library file, the check ends with findings and never with an exception. Seeds are
 * drawn at run time and printed; HANDSCLEAR_MUTANTS says how many, HANDSCLEAR_SEED repeats a run.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { newEngine } from '../../procedures-schema/index.ts';
import { FIXTURE_REGISTERS } from '../support/fixture.ts';
import { randomFrom } from '../support/random.ts';

const folder = join(import.meta.dirname, '../../sample-procedures');
const procedures = readdirSync(join(folder, 'procedures')).map((name) => ({
  path: `procedures/${name}`,
  text: readFileSync(join(folder, 'procedures', name), 'utf8'),
}));
const registers = ['library.yaml', ...readdirSync(join(folder, 'registers')).map((name) => `registers/${name}`)].map((path) => ({
  path,
  text: readFileSync(join(folder, path), 'utf8'),
}));

const NASTY = [
  '\u0000',
  '\ud800',
  '[',
  ']',
  '{',
  '}',
  ':::',
  '\n',
  '\t',
  '    ',
  '```',
  '|',
  '> ',
  '- ',
  '1. ',
  '…',
  '\u202e',
  '\ufeff',
  '---',
  ': ',
  '#',
  '"',
  "'",
  '&a *a',
  '\\',
  'If ',
  ' until ',
  '()',
  '½',
  '−5 °C',
];

function mutated(text: string, random: (below: number) => number): string {
  let out = text;
  for (let count = 1 + random(4); count > 0; count -= 1) {
    const at = random(out.length + 1);
    const length = random(4) === 0 ? random(200) : random(3);
    const put =
      random(3) === 0
        ? (NASTY[random(NASTY.length)] as string)
        : random(2) === 0
          ? String.fromCharCode(random(256))
          : out.slice(random(out.length + 1)).slice(0, random(60));
    out = out.slice(0, at) + put + out.slice(at + length);
  }
  return out;
}

test('mutants of the sample procedures', () => {
  const seed = Number(process.env.HANDSCLEAR_SEED ?? Math.floor(Math.random() * 2 ** 31));
  const count = Number(process.env.HANDSCLEAR_MUTANTS ?? 400);
  console.log(`mutants: ${count}, seed ${seed}`);
  const random = randomFrom(seed);
  const engine = newEngine();
  engine.apply([...registers, ...procedures]);
  let slowest = 0;
  let silent = 0;
  for (let index = 0; index < count; index += 1) {
    const file = procedures[random(procedures.length)] as (typeof procedures)[number];
    const text = mutated(file.text, random);
    const start = performance.now();
    const delta = engine.apply([{ path: file.path, text }]);
    const perHundred = ((performance.now() - start) * 100_000) / Math.max(text.length, 10_000);
    slowest = Math.max(slowest, perHundred);
    const findings = [...(delta.findings.get(file.path) ?? []), ...delta.between];
    if (findings.length === 0) silent += 1;
    for (const finding of findings) {
      expect(finding.range.start.line, `${finding.check} in mutant ${index} of seed ${seed}`).toBeGreaterThanOrEqual(1);
      expect(finding.message).not.toContain('undefined');
    }
    engine.apply([{ path: file.path, text: file.text }]);
  }
  console.log(`slowest: ${slowest.toFixed(0)} ms per 100 kB (an edit, registers kept); without any finding: ${silent}`);
  // Half a minute of a machine that does nothing else.
}, 300_000);

describe('ugly files', () => {
  const cases: readonly (readonly [string, string])[] = [
    ['no front matter', '## Work\n\n1. Clean the [scraper].\n'],
    ['broken YAML', '---\nid: [FX-1\ntitle: "x\n---\n\n## Work\n\n1. Clean the [scraper].\n'],
    ['binary', String.fromCharCode(...Array.from({ length: 4000 }, (_, index) => (index * 7919) % 256))],
    ['empty', ''],
    ['a megabyte on one line', `---\nid: FX-100\n---\n\n## Work\n\n1. ${'clean the [scraper] and '.repeat(43_000)}\n`],
    ['deeply nested lists', Array.from({ length: 400 }, (_, index) => `${'  '.repeat(index)}1. x`).join('\n')],
    ['deeply nested quotes', `${'> '.repeat(3000)}x`],
    ['brackets without end', `## Work\n\n1. ${'['.repeat(20_000)}\n`],
    ['unknown model', '---\nid: FX-100\ntitle: x\nmodels: [DM-99]\n---\n\n## Work\n\n1. Clean the [scraper].\n'],
    [
      'missing figure',
      '---\nid: FX-100\ntitle: x\nmodels: [DM-10]\n---\n\n## Work\n\n1. Clean the [scraper].\n\n   ![The drum](figures/none.svg)\n',
    ],
    ['CRLF', '---\r\nid: FX-100\r\ntitle: x\r\nmodels: [DM-10]\r\n---\r\n\r\n## Work\r\n\r\n1. Clean the [scrapper].\r\n'],
    ['byte-order mark', '\ufeff---\nid: FX-100\ntitle: x\nmodels: [DM-10]\n---\n\n## Work\n\n1. Clean the [scrapper].\n'],
    [
      'right-to-left text',
      '---\nid: FX-100\ntitle: נקה את המגרד\nmodels: [DM-10]\n---\n\n## עבודה\n\n1. נקה את [המגרד].\n2. Clean the [scrapper].\n',
    ],
  ];
  test.each(cases)('%s gives findings with a place', (_, text) => {
    const engine = newEngine();
    engine.apply(Object.entries(FIXTURE_REGISTERS).map(([path, content]) => ({ path, text: content })));
    const start = performance.now();
    const delta = engine.apply([{ path: 'procedures/FX-100.md', text }]);
    const took = performance.now() - start;
    const findings = [...(delta.findings.get('procedures/FX-100.md') ?? []), ...delta.between].filter(
      (finding) => finding.file === 'procedures/FX-100.md',
    );
    expect(findings.length).toBeGreaterThan(0);
    for (const finding of findings) expect(finding.range.start.line).toBeGreaterThanOrEqual(1);
    console.log(`${took.toFixed(0)} ms for ${(text.length / 1000).toFixed(0)} kB`);
  });
});
