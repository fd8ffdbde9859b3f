/** Codes in the printed guide, read back by a second library (jsqr, Apache-2.0): from the squares alone, and from a page as a printer shows it. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { decode } from 'fast-png';
import readCode from 'jsqr';
import { afterAll, describe, expect, test } from 'vitest';
import { addressAt, type FilmLink } from '../../procedures-schema/narration/index.ts';
import { violationsOf } from '../../procedures-schema/schemas/index.ts';
import { codeSquares } from '../../publishing/film-code.ts';
import { checklistOf, printBook, procedureBook } from '../../publishing/index.ts';
import { sample } from '../support/sample.ts';
import { hasTool } from '../support/tools.ts';

const folder = mkdtempSync(join(tmpdir(), 'handsclear-codes-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const ADDRESS = 'https://films.example/ov-3140';
const link = (section: string, start: number, label?: string): FilmLink => ({
  key: `${section} ${label ?? ''}`,
  section,
  ...(label === undefined ? {} : { label }),
  start,
  address: addressAt(ADDRESS, start),
});

/** The squares painted, four pixels each. */
function seen(text: string): string | undefined {
  const { side, path } = codeSquares(text);
  const pixel = 4;
  const size = side * pixel;
  const data = new Uint8ClampedArray(size * size * 4).fill(255);
  for (const [, x, y, width] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g))
    for (let row = Number(y) * pixel; row < (Number(y) + 1) * pixel; row += 1)
      for (let column = Number(x) * pixel; column < (Number(x) + Number(width)) * pixel; column += 1)
        data.fill(0, (row * size + column) * 4, (row * size + column) * 4 + 3);
  return readCode(data, size, size)?.data;
}

describe('the squares', () => {
  test('an address with a time comes back', () => expect(seen(addressAt(ADDRESS, 192.7))).toBe('https://films.example/ov-3140#t=192'));
  test('any address, short or long', () => {
    fc.assert(
      fc.property(fc.webUrl({ withQueryParameters: true, size: 'small' }), fc.nat(20_000), (url, start) => {
        fc.pre(addressAt(url, start).length < 200);
        expect(seen(addressAt(url, start))).toBe(addressAt(url, start));
      }),
      { numRuns: 30 },
    );
  });
});

test('the checklist links each step that the film shows, and keeps to its schema', async () => {
  const { report, input } = await sample();
  const facts = report.facts.procedures.find(({ head }) => head.id === 'OM-3140');
  if (!facts) throw new Error('no sample procedure');
  const films = new Map([['OM-3140', [link('check-the-drift', 90), link('check-the-drift', 134, '3')]]]);
  const made = checklistOf(facts, { ...input, films });
  const steps = made.sections.flatMap(({ items }) => items.filter((item) => item.kind === 'step'));
  expect(steps.filter(({ film }) => film !== undefined).map(({ fullLabel, film }) => `${fullLabel} ${film}`)).toEqual([
    'Check the drift 3 https://films.example/ov-3140#t=134',
  ]);
  expect(violationsOf('checklist', JSON.parse(JSON.stringify(made)))).toEqual([]);
  expect(checklistOf(facts, input).sections).toEqual(checklistOf(facts, { ...input, films: new Map() }).sections);
});

describe.skipIf(!hasTool('pdftoppm'))('a printed page', () => {
  test('shows codes that a reader reads, and none without a film', async () => {
    const { report, input, fonts } = await sample();
    const facts = report.facts.procedures.find(({ head }) => head.id === 'OM-3140');
    if (!facts) throw new Error('no sample procedure');
    const films = new Map([['OM-3140', [link('check-the-drift', 93.4)]]]);
    const plain = printBook(procedureBook(facts, input), fonts);
    const printed = printBook(procedureBook(facts, { ...input, films }), fonts);
    expect(printed.notes).toEqual(plain.notes);
    const read = codesIn(printed.bytes, 'with');
    expect(read).toEqual(['https://films.example/ov-3140#t=93']);
    expect(codesIn(plain.bytes, 'without')).toEqual([]);
  }, 120_000);
});

function codesIn(bytes: Uint8Array, name: string): string[] {
  const file = join(folder, `${name}.pdf`);
  writeFileSync(file, bytes);
  spawnSync('pdftoppm', ['-r', '150', '-png', file, join(folder, name)]);
  const pages = readdirSync(folder)
    .filter((one) => one.startsWith(`${name}-`) && one.endsWith('.png'))
    .sort();
  return pages.flatMap((page) => {
    const { width, height, data, channels } = decode(readFileSync(join(folder, page)));
    const rgba = new Uint8ClampedArray(width * height * 4).fill(255);
    for (let at = 0; at < width * height; at += 1)
      for (let channel = 0; channel < 3; channel += 1)
        rgba[at * 4 + channel] = data[at * channels + Math.min(channel, channels - 1)] as number;
    const found = readCode(rgba, width, height)?.data;
    return found === undefined || found === '' ? [] : [found];
  });
}
