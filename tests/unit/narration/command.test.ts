/** `handsclear narrate` as typed: what it writes, and how it ends. */
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { SAMPLE } from '../../support/sample.ts';
import { typed } from '../../support/typed.ts';

const folder = mkdtempSync(join(tmpdir(), 'handsclear-film-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('a script for one model: five files, the same again', async () => {
  const write = (to: string) => typed('narrate', 'OM-3140', '--library', SAMPLE, '--model', 'dl-25', '--to', join(folder, to));
  const { code, out } = await write('a');
  expect(code).toBe(0);
  expect(out).toMatch(/script of \d+ steps, about \d+:\d\d \(estimated\)/);
  expect(readdirSync(join(folder, 'a')).sort()).toEqual(['captions.vtt', 'chapters.txt', 'chapters.vtt', 'script.md', 'shots.md']);
  await write('b');
  for (const name of readdirSync(join(folder, 'a')))
    expect(readFileSync(join(folder, 'b', name), 'utf8')).toBe(readFileSync(join(folder, 'a', name), 'utf8'));
});

test('a recording that follows the script: chapters, a record, no drift that blocks', async () => {
  await typed('narrate', 'OM-3140', '--library', SAMPLE, '--to', join(folder, 'c'));
  const { code, out } = await typed(
    'narrate',
    'OM-3140',
    '--library',
    SAMPLE,
    '--recording',
    join(folder, 'c/captions.vtt'),
    '--to',
    join(folder, 'd'),
  );
  expect(out).toMatch(/0 errors, 0 warnings/);
  expect(code).toBe(0);
  expect(readFileSync(join(folder, 'd/recorded-chapters.txt'), 'utf8')).toMatch(/^0:00 Start\n\d:\d\d When to use\n/);
  expect(readFileSync(join(folder, 'd/film.yaml'), 'utf8')).toMatch(/procedure: "OM-3140"/);
});

test('a record that somebody has worked on is kept, the new one stands beside it; one as it was written is replaced', async () => {
  const compare = () =>
    typed('narrate', 'OM-3140', '--library', SAMPLE, '--recording', join(folder, 'c/captions.vtt'), '--to', join(folder, 'd'));
  const record = join(folder, 'd/film.yaml');
  const written = readFileSync(record, 'utf8');
  const older = written.replace(/^text hash: .*$/m, `text hash: "${'0'.repeat(64)}"`);
  writeFileSync(record, older);
  expect((await compare()).err).toBe('');
  expect(readFileSync(record, 'utf8')).toBe(written);
  const edited = written.replace('procedure revision', 'address: "https://films.example/lip"\nprocedure revision');
  writeFileSync(record, edited);
  const { code, err } = await compare();
  expect(code).toBe(0);
  expect(readFileSync(record, 'utf8')).toBe(edited);
  expect(readFileSync(join(folder, 'd/film-new.yaml'), 'utf8')).toBe(written);
  expect(err).toContain('left as it is');
});

test('a recording with another value: said with its place, exit 1', async () => {
  const file = join(folder, 'other.vtt');
  const captions = readFileSync(join(folder, 'c/captions.vtt'), 'utf8');
  writeFileSync(file, captions.replace('180 N·m', '108 N·m'));
  const { code, out } = await typed('narrate', 'OM-3140', '--library', SAMPLE, '--recording', file, '--to', join(folder, 'e'));
  expect(code).toBe(1);
  expect(out).toContain('108 N·m is heard where the text says 180 N·m');
});

test.each([
  ['UTF-16, little end first', (text: string) => Buffer.from(`\ufeff${text}`, 'utf16le')],
  ['UTF-16, big end first', (text: string) => Buffer.from(`\ufeff${text}`, 'utf16le').swap16()],
  ['UTF-8 with a mark', (text: string) => Buffer.from(`\ufeff${text}`, 'utf8')],
])('captions saved as %s are read by their byte-order mark', async (_, saved) => {
  const file = join(folder, 'marked.vtt');
  writeFileSync(file, saved(readFileSync(join(folder, 'c/captions.vtt'), 'utf8')));
  const { code, out } = await typed('narrate', 'OM-3140', '--library', SAMPLE, '--recording', file, '--to', join(folder, 'marked'));
  expect(out).toMatch(/0 errors, 0 warnings/);
  expect(code).toBe(0);
});

test('a refuted text is held back; a draft of it says so in every file, in every caption and at every chapter', async () => {
  const library = join(folder, 'refuted');
  cpSync(SAMPLE, library, { recursive: true });
  const file = join(library, 'procedures/OM-3140-lip-cylinder.md');
  writeFileSync(file, readFileSync(file, 'utf8').replace(/^2\. Put your lock and tag on the \[main isolator\]\.\n/m, ''));
  const narrate = (...more: string[]) => typed('narrate', 'OM-3140', '--library', library, '--to', join(folder, 'g'), ...more);
  const { code, err } = await narrate();
  expect(code).toBe(1);
  expect(err).toContain('--draft');
  // Each question of the walk has its own answer.
  expect(err.replace(/\s+/g, ' ')).toContain('(it is within the limits: no; it is over the limit: yes)');
  expect(existsSync(join(folder, 'g'))).toBe(false);
  expect((await narrate('--draft', '--recording', join(folder, 'c/captions.vtt'))).out).toContain(', draft.');
  const read = (name: string): string => readFileSync(join(folder, 'g', name), 'utf8');
  const names = readdirSync(join(folder, 'g')).filter((name) => name !== 'drift.json');
  expect(names).toHaveLength(8);
  for (const name of names) expect(read(name), name).toContain('DRAFT: NOT FOR FIELD USE');
  for (const name of ['captions.vtt', 'chapters.vtt', 'recorded-chapters.vtt'])
    for (const cue of read(name)
      .split('\n\n')
      .filter((block) => block.includes('-->')))
      expect(cue).toContain('DRAFT: NOT FOR FIELD USE');
});

test('the demo film of the sample library still says what its procedure says', async () => {
  const { code, out } = await typed(
    'narrate',
    'OM-2120',
    '--library',
    SAMPLE,
    '--recording',
    join(SAMPLE, 'narration/OV-2120.vtt'),
    '--to',
    join(folder, 'f'),
  );
  expect(out).toContain('Since the film OV-2120 was made:');
  expect(out).toMatch(/ 0 errors, |^0 errors, /m);
  expect(code).toBe(0);
});

test.each([
  [['narrate', 'OM-3140', '--library', SAMPLE], '--to FOLDER'],
  [['narrate', 'OM-3141', '--library', SAMPLE, '--to', 'x'], 'Did you mean OM-3140?'],
  [['narrate', 'OM-3140', '--library', SAMPLE, '--to', 'x', '--model', 'EF-450'], 'is not for EF-450'],
  [['narrate', 'OM-3140', '--library', SAMPLE, '--to', 'x', '--recording', 'nowhere.vtt'], 'cannot be read'],
  [['narrate', 'OM-3140', '--library', SAMPLE, '--to', 'x', '--recording', 'package.json'], 'holds no captions'],
  [['narrate', 'OM-3140', '--library', SAMPLE, '--to', 'x', '--pace', '3000'], '60 to 300'],
])('%j could not run: exit 2', async (words, said) => {
  const { code, err } = await typed(...words);
  expect(code).toBe(2);
  expect(err).toContain(said);
});
