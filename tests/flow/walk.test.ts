/** The walk command, as typed: what a person reads of one walk, of a visit, of all walks. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
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

test('a walk without a mark never passes for a proof: the caution stands below it, and errors beside the walk are told', async () => {
  const clean = await walk('OM-1110');
  expect([clean.code, clean.out]).toEqual([0, expect.stringContaining('A clean check does not make a machine safe.')]);
  expect(clean.out).not.toContain('in the way of publishing');
  const library = mkdtempSync(join(tmpdir(), 'handsclear-walk-'));
  cpSync(SAMPLE, library, { recursive: true });
  const file = join(library, 'procedures/OM-1110-fan-shake.md');
  writeFileSync(file, readFileSync(file, 'utf8').replace(/^ {2}- personal lock.*\n/m, ''));
  const { code, out } = await typed('walk', 'OM-1110', '--library', library);
  rmSync(library, { recursive: true });
  expect([code, out]).toEqual([0, expect.stringContaining('An error stands in the way of publishing this. See: handsclear check')]);
});

test('what a walk breaks is named as handsclear explain knows it', async () => {
  const library = mkdtempSync(join(tmpdir(), 'handsclear-walk-'));
  cpSync(SAMPLE, library, { recursive: true });
  const file = join(library, 'procedures/OM-2120-guide-shoes.md');
  writeFileSync(file, readFileSync(file, 'utf8').replace(/^8\. Put your lock and tag on the .*$/m, '8. Wait 1 min.'));
  const one = await typed('walk', 'OM-2120', '--library', library);
  const all = await typed('walk', 'OM-2120', '--all', '--library', library);
  rmSync(library, { recursive: true });
  expect([one.code, one.out]).toEqual([1, expect.stringContaining('!! hands-locked: mains supply')]);
  expect([all.code, all.out]).toEqual([1, expect.stringContaining('hands-locked: mains supply')]);
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
  for (const said of ['no hands in', 'local codes and licensed practice come first', 'makes a machine safe']) expect(svg).toContain(said);
  expect(svg).not.toContain('DRAFT');
});

test.each([
  ['what is not proved', (text: string) => text.replace('Put your lock and tag on the [main isolator].', 'Look at the [main isolator].')],
  [
    'a proved text with steps under a heading of prose',
    (text: string) => `${text.trimEnd()}\n\n## Background\n\n1. Look at the [seat mark].\n`,
  ],
])('the drawing of %s is a draft, and says so', async (_, break_) => {
  const folder = mkdtempSync(join(tmpdir(), 'handsclear-graph-'));
  cpSync(SAMPLE, folder, { recursive: true });
  const path = join(folder, 'procedures/OM-3140-lip-cylinder.md');
  const text = readFileSync(path, 'utf8');
  const broken = break_(text);
  expect(broken).not.toBe(text);
  writeFileSync(path, broken);
  const file = join(folder, 'lip.svg');
  await typed('walk', 'OM-3140', '--all', '--graph', file, '--library', folder);
  expect(readFileSync(file, 'utf8')).toContain('DRAFT: NOT FOR FIELD USE');
  rmSync(folder, { recursive: true });
});

test.each([
  [['OM-9999'], 'No procedure has the number "OM-9999"'],
  [['OM-3140', '--model', 'VB-20'], 'It is not for VB-20'],
  [['OM-3140', '--outcome', 'drift'], '--outcome wants'],
  [['--visit', 'bale is sofd'], 'Did you mean "bale is soft"?'],
  [[], 'walk wants a procedure'],
  [['OM-3140', '--visit', 'bale is soft'], 'A procedure ("OM-3140") and --visit do not go together.'],
  [['--visit', 'bale is soft', '--graph', 'x.svg'], '--graph and --visit do not go together.'],
  [['OM-3140', '--all', '--outcome', 'lip drift=over'], '--outcome and --all'],
  [['OM-3140', '--all', '--model', 'DL-25'], '--model and --all'],
  [['OM-3140', '--outcome', 'lip drft=over'], 'Nothing on this walk asks for --outcome "lip drft=over"'],
  [['OM-3140', '--outcome', 'the moon is full=yes'], 'Asked on it: lip drift.'],
])('%j cannot run, and says why', async (words, said) => {
  const { code, err } = await walk(...words);
  expect(code).toBe(2);
  expect(err).toContain(said);
});
