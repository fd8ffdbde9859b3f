import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import type { Disk, Entry } from '../../../electron/host/files/disk.ts';
import { isInside, LARGEST_TEXT, readFigure, readLibrary } from '../../../electron/host/files/library.ts';

// Common practice, no source: a document tool reads only the folder it was given.

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

type Content = string | Uint8Array | { readonly link: string };

/** A library on the real disk from path and content. */
function onDisk(files: Readonly<Record<string, Content>>): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'handsclear-library-'));
  folders.push(folder);
  for (const [name, content] of Object.entries(files)) {
    const file = path.join(folder, ...name.split('/'));
    mkdirSync(path.dirname(file), { recursive: true });
    if (typeof content === 'object' && 'link' in content) symlinkSync(content.link, file);
    else writeFileSync(file, content);
  }
  return folder;
}

/** A pretended disk: either path style, and any file may fail with a system code. */
function pretended(
  style: typeof path.posix,
  root: string,
  files: Readonly<Record<string, string>>,
  faults: Readonly<Record<string, string>> = {},
): Disk {
  const full = (name: string): string => style.join(root, ...name.split('/'));
  const all = new Map(Object.entries(files).map(([name, text]) => [full(name), new TextEncoder().encode(text)]));
  const failing = new Map(Object.entries(faults).map(([name, code]) => [full(name), code]));
  const check = (file: string): void => {
    const code = failing.get(file);
    if (code) throw Object.assign(new Error(`${code}: ${file}`), { code });
  };
  return {
    path: style,
    real: async (file) => file,
    list: async (folder) => {
      check(folder);
      const inside = [...all.keys()].filter((file) => file.startsWith(folder + style.sep)).map((file) => file.slice(folder.length + 1));
      const entries = new Map<string, Entry>();
      for (const way of inside) {
        const [name = ''] = way.split(style.sep);
        entries.set(name, { name, kind: way.includes(style.sep) ? 'folder' : 'file' });
      }
      return [...entries.values()];
    },
    stat: async (file) => ({ kind: 'file', size: all.get(file)?.length ?? 0 }),
    read: async (file) => {
      check(file);
      return all.get(file) ?? new Uint8Array();
    },
  };
}

describe('reading a library folder', () => {
  test('takes texts and names figures, sorted, and leaves the rest alone', async () => {
    const root = onDisk({
      'library.yaml': 'publisher: Aldmere',
      'procedures/b.md': 'b',
      'procedures/a.md': 'a',
      'procedures/winches/c.md': 'c',
      'guides/g.md': 'g',
      'registers/tools.yaml': 'tools: {}',
      'figures/f.svg': '<svg/>',
      'narration/n.vtt': 'WEBVTT',
      'procedures/notes.txt': 'not ours',
      'procedures/.hidden.md': 'not ours',
      'other/x.md': 'not ours',
      'README.md': 'not ours',
    });
    const library = await readLibrary(root);
    expect(library.texts.map((file) => file.path)).toEqual([
      'guides/g.md',
      'library.yaml',
      'procedures/a.md',
      'procedures/b.md',
      'procedures/winches/c.md',
      'registers/tools.yaml',
    ]);
    expect(library.paths).toContain('figures/f.svg');
    expect(library.paths).toContain('narration/n.vtt');
    expect(library.refusals).toEqual([]);
  });

  test('keeps the byte-order mark and the line ends', async () => {
    const library = await readLibrary(onDisk({ 'procedures/a.md': '\uFEFFa\r\nb' }));
    expect(library.texts[0]?.text).toBe('\uFEFFa\r\nb');
  });

  test('a link out of the library is refused by name, one inside is followed', async () => {
    const outside = onDisk({ 'secret.md': 'secret' });
    const root = onDisk({
      'procedures/real.md': 'real',
      'procedures/inside.md': { link: 'real.md' },
      'procedures/outside.md': { link: path.join(outside, 'secret.md') },
      'procedures/nowhere.md': { link: 'gone.md' },
      'guides/folder': { link: outside },
    });
    const library = await readLibrary(root);
    expect(library.texts.map((file) => file.path)).toEqual(['procedures/inside.md', 'procedures/real.md']);
    expect(library.refusals.map((refusal) => refusal.path)).toEqual(['guides/folder', 'procedures/nowhere.md', 'procedures/outside.md']);
  });

  test('a folder that links back to itself ends', async () => {
    const root = onDisk({ 'procedures/a.md': 'a', 'procedures/again': { link: '.' } });
    const library = await readLibrary(root);
    // Once, and not once more at every level.
    expect(library.texts.map((file) => file.path)).toEqual(['procedures/a.md']);
    expect(library.refusals).toMatchObject([{ path: 'procedures/again', message: 'This link leads nowhere: it leads back to itself.' }]);
  });

  test('a folder with the name of a text is told', async () => {
    const root = onDisk({ 'library.yaml': '', 'registers/parts.yaml/note.txt': 'a' });
    const { refusals } = await readLibrary(root);
    expect(refusals).toMatchObject([{ path: 'registers/parts.yaml', message: 'The file cannot be read: it is a folder.' }]);
  });

  test.each<[string, Uint8Array, RegExp]>([
    ['UTF-16', new Uint8Array([0xff, 0xfe, 0x61, 0x00]), /UTF-16/],
    ['binary', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 0, 0xff]), /not text/],
  ])('%s is refused', async (_, bytes, message) => {
    const library = await readLibrary(onDisk({ 'procedures/a.md': bytes }));
    expect(library.texts).toEqual([]);
    expect(library.refusals[0]?.message).toMatch(message);
  });

  test('a byte of an old encoding is named by line and column, and the rest is still read', async () => {
    const library = await readLibrary(onDisk({ 'procedures/a.md': new Uint8Array([0x61, 0x0a, 0x62, 0xe9, 0x63]) }));
    expect(library.refusals).toMatchObject([{ path: 'procedures/a.md', line: 2, column: 2 }]);
    expect(library.refusals[0]?.message).toContain('0xE9');
    expect(library.texts[0]?.text).toBe('a\nb\uFFFDc');
  });

  test.each([
    [LARGEST_TEXT - 1, true],
    [LARGEST_TEXT, true],
    [LARGEST_TEXT + 1, false],
  ])('a text of %i bytes: read is %s', async (size, read) => {
    const library = await readLibrary(onDisk({ 'procedures/a.md': new Uint8Array(size).fill(0x61) }));
    expect(library.texts.length === 1).toBe(read);
    expect(library.refusals.length === 0).toBe(read);
  });
});

describe.each<[string, typeof path.posix, string]>([
  ['posix', path.posix, '/srv/library'],
  ['win32', path.win32, 'C:\\srv\\library'],
])('on a disk with %s paths', (_, style, root) => {
  const files = { 'library.yaml': 'x', 'procedures/a.md': 'a', 'procedures/deep/b.md': 'b' };

  test('paths come out with forward slashes', async () => {
    const library = await readLibrary(root, pretended(style, root, files));
    expect(library.paths).toEqual(['library.yaml', 'procedures/a.md', 'procedures/deep/b.md']);
  });

  test('a file that fails is a refusal without the machine path, and the others are read', async () => {
    const library = await readLibrary(root, pretended(style, root, files, { 'procedures/a.md': 'EACCES', 'procedures/deep': 'EIO' }));
    expect(library.texts.map((file) => file.path)).toEqual(['library.yaml']);
    expect(library.refusals.map((refusal) => refusal.message)).toEqual([
      'The file cannot be read: permission denied.',
      'The folder cannot be read: the disk reports a fault.',
    ]);
  });

  test('inside and outside', () => {
    const disk = { path: style };
    expect(isInside(root, style.join(root, 'procedures', 'a.md'), disk)).toBe(true);
    expect(isInside(root, style.join(root, '..', 'library-2', 'a.md'), disk)).toBe(false);
    expect(isInside(root, style.join(root, '..'), disk)).toBe(false);
    expect(isInside(root, root, disk)).toBe(false);
    expect(isInside(root, style.join(root, '..a.md'), disk)).toBe(true);
  });
});

describe('a figure', () => {
  test('is read inside the library only', async () => {
    const outside = onDisk({ 'f.svg': 'secret' });
    const root = onDisk({ 'figures/f.svg': '<svg/>', 'figures/out.svg': { link: path.join(outside, 'f.svg') } });
    const { root: real } = await readLibrary(root);
    expect(new TextDecoder().decode(await readFigure(real, 'figures/f.svg'))).toBe('<svg/>');
    expect(await readFigure(real, 'figures/out.svg')).toBeUndefined();
    expect(await readFigure(real, `../${path.basename(outside)}/f.svg`)).toBeUndefined();
    expect(await readFigure(real, 'figures/gone.svg')).toBeUndefined();
  });
});
