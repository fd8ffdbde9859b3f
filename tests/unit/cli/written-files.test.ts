/** Where a command may write: never over what somebody wrote, and what stands in the way is said in words. */
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { SAMPLE } from '../../support/sample.ts';
import { typed } from '../../support/typed.ts';

const folder = mkdtempSync(join(tmpdir(), 'handsclear-written-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const library = join(folder, 'the library');
cpSync(SAMPLE, library, { recursive: true });

const sheet = (to: string) => typed('checklist', 'OM-1110', '--library', library, '--to', to);

test.each([
  'procedures/OM-1120-fan-motor.md',
  'procedures/new.json',
  'registers/tools.yaml',
  'figures/drive-box.svg',
  'narration/x.json',
  'library.yaml',
])('%s of the library is never written over or put there', async (own) => {
  const file = join(library, own);
  const before = existsSync(file) ? readFileSync(file, 'utf8') : undefined;
  const { code, err } = await sheet(file);
  expect(code).toBe(2);
  expect(err).toContain("stands among the library's own files");
  expect(existsSync(file) ? readFileSync(file, 'utf8') : undefined).toBe(before);
});

test('a film script is not strewn among the procedures', async () => {
  const before = readdirSync(join(library, 'procedures'));
  const { code } = await typed('narrate', 'OM-1110', '--library', library, '--to', join(library, 'procedures'));
  expect(code).toBe(2);
  expect(readdirSync(join(library, 'procedures'))).toEqual(before);
});

test('a file of another kind is left as it is; one of the same kind is replaced', async () => {
  const notes = join(folder, 'notes.txt');
  writeFileSync(notes, 'Call the depot about the shims.');
  const { code, err } = await sheet(notes);
  expect([code, err]).toEqual([2, expect.stringContaining('is there already and is no JSON file, so it was left as it is.')]);
  expect(readFileSync(notes, 'utf8')).toBe('Call the depot about the shims.');
  const out = join(library, 'out', 'fan.json');
  expect((await sheet(out)).code).toBe(0);
  writeFileSync(out, '{"old": true}');
  expect((await sheet(out)).code).toBe(0);
  expect(JSON.parse(readFileSync(out, 'utf8')).document.number).toBe('OM-1110');
});

test('what stands in the way is said in words, and no part of a file stays behind', async () => {
  const place = join(folder, 'place');
  mkdirSync(join(place, 'taken'), { recursive: true });
  writeFileSync(join(place, 'file'), 'x');
  for (const [to, said] of [
    [join(place, 'taken'), 'it is a folder'],
    [join(place, 'file', 'fan.json'), 'a part of its path is a file, not a folder'],
    [`${join(place, 'new')}/`, 'names a folder'],
    [join(place, 'n'.repeat(300)), 'the name is too long'],
  ] as const) {
    const { code, err } = await sheet(to);
    expect([code, err]).toEqual([2, expect.stringContaining(said)]);
  }
  expect(readdirSync(place).sort()).toEqual(['file', 'taken']);
});

test('captions that are compared are not written over by those that are estimated', async () => {
  const film = join(folder, 'film');
  expect((await typed('narrate', 'OM-1110', '--library', library, '--to', film)).code).toBe(0);
  const captions = join(film, 'captions.vtt');
  writeFileSync(captions, 'WEBVTT\n\n00:00:00.000 --> 00:00:07.000\nWhat was heard.\n');
  const { code, err } = await typed('narrate', 'OM-1110', '--library', library, '--to', film, '--recording', captions);
  expect([code, err]).toEqual([2, expect.stringContaining('Give another folder. Nothing was written.')]);
  expect(readFileSync(captions, 'utf8')).toContain('What was heard.');
});
