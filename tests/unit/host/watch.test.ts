import { mkdirSync, renameSync, rmSync, unlinkSync, utimesSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import type { DiskChange } from '../../../electron/host/contract/index.ts';
import { nodeWriteDisk, saveFiles } from '../../../electron/host/saving/index.ts';
import { type Watching, watchLibrary } from '../../../electron/host/watch/index.ts';
import { hash, newFolder, newLibrary, put, SMALL } from '../../support/host.ts';

const open: Watching[] = [];
afterEach(async () => {
  for (const { stop } of open.splice(0)) await stop();
});

async function watched(files = SMALL) {
  const root = newLibrary(files);
  const told: DiskChange[] = [];
  const watching = watchLibrary(root, (changes) => told.push(...changes));
  open.push(watching);
  await watching.ready;
  const last = (own: string): DiskChange | undefined => told.filter((one) => one.path === own).at(-1);
  return { root, told, last, watching };
}

/** Long enough for whatever might still come. */
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 400));

test('a text that another program saved is told with its new text', async () => {
  const { root, last } = await watched();
  put(root, { 'procedures/a.md': '\uFEFFtheirs\r\n' });
  await expect
    .poll(() => last('procedures/a.md'))
    .toEqual({ path: 'procedures/a.md', text: '\uFEFFtheirs\r\n', hash: hash('\uFEFFtheirs\r\n') });
});

test('our own save is told like any other, for the other windows', async () => {
  const { root, last, told } = await watched();
  await saveFiles(root, [{ path: 'procedures/a.md', base: hash('first\n'), text: 'mine\n' }], nodeWriteDisk);
  await expect.poll(() => last('procedures/a.md')).toMatchObject({ text: 'mine\n' });
  await settled();
  // Putting a file in place of another must not look as if it were gone in between.
  expect(told.filter((one) => 'gone' in one)).toEqual([]);
});

test('a new file in a new folder, a deleted one, and a renamed one', async () => {
  const { root, last } = await watched({ ...SMALL, 'procedures/b.md': 'b\n' });
  mkdirSync(path.join(root, 'procedures', 'new'));
  put(root, { 'procedures/new/c.md': 'c\n' });
  unlinkSync(path.join(root, 'procedures', 'a.md'));
  renameSync(path.join(root, 'procedures', 'b.md'), path.join(root, 'procedures', 'd.md'));
  await expect.poll(() => last('procedures/new/c.md')).toMatchObject({ text: 'c\n' });
  await expect.poll(() => last('procedures/a.md')).toEqual({ path: 'procedures/a.md', gone: true });
  await expect.poll(() => last('procedures/b.md')).toEqual({ path: 'procedures/b.md', gone: true });
  await expect.poll(() => last('procedures/d.md')).toMatchObject({ text: 'b\n' });
});

test('a figure is told by name only', async () => {
  const { root, last } = await watched({ ...SMALL, 'figures/old.svg': '<svg/>' });
  put(root, { 'figures/fan.svg': '<svg/>' });
  await expect.poll(() => last('figures/fan.svg')).toEqual({ path: 'figures/fan.svg', present: true });
});

test('what is no part of a library is not told', async () => {
  const { root, told } = await watched();
  put(root, {
    'out/x.pdf': 'x',
    '.git/index': 'x',
    'procedures/.a.md.swp': 'x',
    'procedures/notes.txt': 'x',
    'other/x.md': 'x',
    'node_modules/x/library.yaml': 'x',
  });
  await settled();
  expect(told).toEqual([]);
});

test.skipIf(process.platform === 'win32')('a text that became a link out of the library is not read', async () => {
  const { root, told } = await watched();
  const outside = newFolder();
  put(outside, { 'secret.md': 'secret\n' });
  put(root, { 'procedures/out.md': { link: path.join(outside, 'secret.md') } });
  await settled();
  expect(told).toEqual([]);
});

test('many changes come in order: the last text told is the last text written', async () => {
  const { root, last } = await watched();
  for (let count = 0; count < 40; count += 1) {
    writeFileSync(path.join(root, 'procedures', 'a.md'), `text ${count}\n${'x'.repeat(count * 1000)}`);
    await new Promise((resolve) => setTimeout(resolve, 8));
  }
  const end = { hash: hash(`text 39\n${'x'.repeat(39_000)}`) };
  await expect.poll(() => last('procedures/a.md'), { timeout: 5_000 }).toMatchObject(end);
  await settled();
  expect(last('procedures/a.md')).toMatchObject(end);
});

test('after it is stopped nothing is told', async () => {
  const { root, told, watching } = await watched();
  put(root, { 'procedures/a.md': 'theirs\n' });
  await watching.stop();
  await settled();
  expect(told).toEqual([]);
});

test('a folder that goes away while it is watched fails nobody', async () => {
  const { root } = await watched();
  rmSync(root, { recursive: true });
  await settled();
});

describe('what happened between reading and watching', () => {
  test('is told: changed, new and gone; and what stayed as it was is not', async () => {
    const root = newLibrary({ ...SMALL, 'procedures/b.md': 'b\n', 'procedures/c.md': 'c\n' });
    const paths = ['library.yaml', 'procedures/a.md', 'procedures/b.md', 'procedures/c.md', 'registers/equipment.yaml'];
    const long = new Date(Date.now() - 60_000);
    for (const own of paths) utimesSync(path.join(root, ...own.split('/')), long, long);
    // A file's inner clock cannot be set back; reading began later than all of it.
    const time = Date.now() + 4_000;
    put(root, { 'procedures/new.md': 'new\n' });
    unlinkSync(path.join(root, 'procedures', 'b.md'));
    utimesSync(path.join(root, 'procedures', 'c.md'), new Date(time), new Date(time));
    const told: DiskChange[] = [];
    const watching = watchLibrary(root, (changes) => told.push(...changes), { time, paths });
    open.push(watching);
    await watching.ready;
    await settled();
    expect(told.map((one) => [one.path, 'gone' in one])).toEqual([
      ['procedures/b.md', true],
      ['procedures/c.md', false],
      ['procedures/new.md', false],
    ]);
    put(root, { 'procedures/a.md': 'later\n' });
    await expect.poll(() => told.at(-1)).toMatchObject({ path: 'procedures/a.md', text: 'later\n' });
  });
});
