/** The walk command, as typed: what a person reads of one walk, of a visit, of all walks. */
import { readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { SAMPLE } from '../support/sample.ts';
import { typed } from '../support/typed.ts';

const walk = (...words: string[]) => typed('walk', ...words, '--library', SAMPLE);

test('a reading over the limit leads into the repair, and back to the reading', async () => {
  const { code, out } = await walk('OM-3140', '--model', 'DL-30', '--outcome', 'lip drift=over');
  expect(code).toBe(0);
  expect(out).toContain('OM-3140 Check the lip cylinder for drift and renew its seal, on DL-30');
  const order = [
    '? it is within the limits: no',
    'Renew the seal',
    '30    Tighten the hose nut',
    'Repeat steps 3 to 9',
    '? it is within the limits: yes (assumed)',
    'End: normal.',
  ];
  let at = 0;
  for (const words of order) {
    const found = out.indexOf(words, at);
    expect(found, words).toBeGreaterThan(at);
    at = found;
  }
});

test('the required state is told where it changes', async () => {
  const { out } = await walk('OM-3140', '--model', 'DL-20', '--outcome', 'lip drift=over');
  const dead = out.indexOf('required  proved dead: mains supply, pump pressure, platform weight');
  expect(dead).toBeGreaterThan(out.indexOf('7     Hold the raise button for 5 s'));
  expect(dead).toBeLessThan(out.indexOf('8     Put on the safety glasses'));
  expect(out).not.toContain('!!');
});

test('a visit goes through its procedures in the order of the register', async () => {
  const { code, out } = await walk('--visit', 'steam leaks at the platen joint', '--model', 'SP-90');
  expect(code).toBe(0);
  expect(out).toContain('on SP-90: OM-4110, OM-4120, OM-4190');
  expect(out.indexOf('Isolate and lock')).toBeLessThan(out.indexOf('Close the flange'));
  expect(out.indexOf('Close the flange')).toBeLessThan(out.indexOf('Steam on'));
});

test('all: a verdict for each variant, and never a word that it is safe', async () => {
  const { code, out } = await walk('OM-1110', '--all');
  expect(code).toBe(0);
  expect(out.match(/ {2}proved$/gm)?.length).toBe(9);
  expect(out).toContain('It does not make the machine safe.');
});

test('the graph is a drawing with every step', async () => {
  const file = join(tmpdir(), `handsclear-graph-${process.pid}.svg`);
  await walk('OM-2120', '--all', '--graph', file);
  const svg = readFileSync(file, 'utf8');
  rmSync(file);
  expect(svg).toContain('Tighten all shoe bolts to 80');
  expect(svg.match(/<title>(live|safe|open)<\/title>/g)?.length).toBeGreaterThan(40);
});

test.each([
  [['OM-9999'], 'No procedure has the number "OM-9999"'],
  [['OM-3140', '--model', 'VB-20'], 'It is not for VB-20'],
  [['OM-3140', '--outcome', 'drift'], '--outcome wants'],
  [['--visit', 'bale is sofd'], 'Did you mean "bale is soft"?'],
  [[], 'walk wants a procedure'],
])('%j cannot run, and says why', async (words, said) => {
  const { code, err } = await walk(...words);
  expect(code).toBe(2);
  expect(err).toContain(said);
});
