import { readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { Cache } from '../../../electron/host/cache/index.ts';
import { nodeWriteDisk } from '../../../electron/host/saving/index.ts';
import { failingDisk, hostOf, newFolder, newLibrary } from '../../support/host.ts';

const only = (folder: string): string => path.join(folder, readdirSync(folder)[0] ?? '');

describe('what was worked out', () => {
  test('is there in the next run, by library and name', async () => {
    const folder = newFolder();
    await new Cache(folder, nodeWriteDisk).write('a', 'facts-1', 'text ü\n');
    const next = new Cache(folder, nodeWriteDisk);
    expect(await next.read('a', 'facts-1')).toBe('text ü\n');
    expect([await next.read('b', 'facts-1'), await next.read('a', 'facts-2')]).toEqual([undefined, undefined]);
  });

  test('may be nothing', async () => {
    const cache = new Cache(newFolder(), nodeWriteDisk);
    await cache.write('a', 'x', '');
    expect(await cache.read('a', 'x')).toBe('');
  });

  test('is as if it were not there when it is torn or changed at any place', async () => {
    const folder = newFolder();
    const cache = new Cache(folder, nodeWriteDisk);
    await cache.write('a', 'x', 'some text');
    const whole = readFileSync(only(folder));
    for (let at = 0; at < whole.length; at += 1) {
      writeFileSync(only(folder), whole.subarray(0, at));
      expect(await cache.read('a', 'x'), `cut at ${at}`).toBeUndefined();
      const changed = Buffer.from(whole);
      changed[at] = (changed[at] ?? 0) ^ 1;
      writeFileSync(only(folder), changed);
      expect(await cache.read('a', 'x'), `changed at ${at}`).toBeUndefined();
    }
  });

  test('gives way to newer when it is too much: the oldest goes', async () => {
    const folder = newFolder();
    const cache = new Cache(folder, nodeWriteDisk, 400);
    const long = 'x'.repeat(100);
    await cache.write('a', 'one', long);
    utimesSync(only(folder), new Date(1_000), new Date(1_000));
    await cache.write('a', 'two', long);
    expect(await cache.read('a', 'one')).toBe(long);
    await cache.write('a', 'three', long);
    expect(await cache.read('a', 'one')).toBeUndefined();
    expect([await cache.read('a', 'two'), await cache.read('a', 'three')]).toEqual([long, long]);
  });

  test('is not kept when the disk fails, and nobody minds', async () => {
    expect(await new Cache(newFolder(), failingDisk({ writeFlushed: 'ENOSPC' })).write('a', 'x', 'text')).toBe(false);
  });

  test.each(['', '../x', 'a b', 'x'.repeat(65)])('is not kept under the name "%s"', async (name) => {
    const folder = newFolder();
    expect(await new Cache(folder, nodeWriteDisk).write('a', name, 'text')).toBe(false);
    expect(readdirSync(folder)).toEqual([]);
  });

  test('crosses the contract', async () => {
    const { call, library } = await hostOf(newLibrary());
    expect(await call('cache.read', { library, name: 'facts' })).toEqual({ text: null });
    expect(await call('cache.write', { library, name: 'facts', text: 'x' })).toEqual({ kept: true });
    expect(await call('cache.read', { library, name: 'facts' })).toEqual({ text: 'x' });
  });
});
