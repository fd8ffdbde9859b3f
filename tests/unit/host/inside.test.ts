import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isWritable } from '../../../electron/host/files/index.ts';
import { insideLibrary, nodeWriteDisk, saveFiles, unfitPath } from '../../../electron/host/saving/index.ts';
import { newFolder, newLibrary, put, read, SMALL } from '../../support/host.ts';

const root = newLibrary();
const place = (own: string, folder = root): Promise<string> => insideLibrary(folder, own, isWritable);

describe('a path that may be written', () => {
  test.each([
    'library.yaml',
    'registers/tools.yml',
    'procedures/a.md',
    'procedures/balers/vertical/OM-1.md',
    'guides/g.md',
    'review/A-1.yaml',
    'narration/one.vtt',
    'procedures/Ölfilter wechseln.md',
    'Procedures/A.MD',
    'procedures/console.md',
    'procedures/com10.md',
    'procedures/a.b.md',
  ])('%s', async (own) => {
    expect(await place(own)).toBe(path.join(root, ...own.split('/')));
  });
});

describe('a path that may not', () => {
  test.each([
    ['climbs out', '../outside.md'],
    ['climbs out from within', 'procedures/../../outside.md'],
    ['climbs and comes back', 'procedures/../procedures/a.md'],
    ['is absolute', '/procedures/a.md'],
    ['is absolute on Windows', 'C:/procedures/a.md'],
    ['climbs the Windows way', 'procedures\\..\\..\\a.md'],
    ['names a share', '//server/procedures/a.md'],
    ['has an empty part', 'procedures//a.md'],
    ['is hidden', 'procedures/.a.md'],
    ['lies in a hidden folder', '.git/a.md'],
    ['lies in a hidden folder of procedures', 'procedures/.git/a.md'],
    ['opens a stream on Windows', 'procedures/a.md:x.md'],
    ['holds a NUL', 'procedures/a\0.md'],
    ['holds a line end', 'procedures/a\n.md'],
    ['holds half a character', 'procedures/\ud800.md'],
    ['ends with a space', 'procedures/a.md '],
    ['has a folder that ends with a dot', 'procedures/x./a.md'],
    ['is a device on Windows', 'procedures/CON.md'],
    ['is a device, in small letters, with two endings', 'procedures/nul.tar.md'],
    ['lies in a folder that is a device', 'procedures/lpt1/a.md'],
    ['is a device with a raised digit', 'procedures/COM¹.md'],
    ['is no text of a library', 'procedures/a.exe'],
    ['lies at the top', 'a.md'],
    ['lies elsewhere', 'out/a.md'],
    ['is a folder', 'procedures/'],
    ['is nothing', ''],
    ['is too long', `procedures/${'x/'.repeat(600)}a.md`],
    ['has a part that is too long', `procedures/${'x'.repeat(253)}.md`],
  ])('because it %s', async (_, own) => {
    await expect(place(own)).rejects.toThrow(/is no place in a library where this may be written/);
  });

  test('says which rule it breaks', () => {
    expect(unfitPath('procedures/aux.md')).toEqual(['nameDevice', 'aux.md']);
    expect(unfitPath('procedures/a .md')).toBeUndefined();
  });

  test('no path at all gets outside', async () => {
    const part = fc.constantFrom(
      '..',
      '.',
      'procedures',
      'registers',
      'a.md',
      'library.yaml',
      '',
      'CON',
      '~',
      'x'.repeat(300),
      '\\',
      '%2e%2e',
    );
    await fc.assert(
      fc.asyncProperty(fc.array(part, { maxLength: 7 }), fc.constantFrom('/', '\\'), async (parts, between) => {
        const found = await place(parts.join(between)).catch(() => undefined);
        if (found !== undefined) expect(found.startsWith(root + path.sep)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});

describe.skipIf(process.platform === 'win32')('links', () => {
  const outside = newFolder();
  put(outside, { 'secret.md': 'secret\n', 'inner/x.md': 'x\n' });
  const linked = newLibrary({
    ...SMALL,
    '.git/config': '[core]\n',
    'procedures/out.md': { link: path.join(outside, 'secret.md') },
    'procedures/away': { link: outside },
    'procedures/hidden': { link: '../.git' },
    'procedures/config.md': { link: '../.git/config' },
    'procedures/same.md': { link: 'a.md' },
    'procedures/nowhere.md': { link: path.join(outside, 'new.md') },
    'procedures/ring.md': { link: 'ring.md' },
  });

  test.each(['procedures/out.md', 'procedures/away/secret.md', 'procedures/away/new.md', 'procedures/away/inner/deep/new.md'])(
    '%s leads out',
    async (own) => {
      await expect(place(own, linked)).rejects.toThrow('leads out of the library by a link');
    },
  );

  test.each(['procedures/hidden/new.md', 'procedures/config.md'])('%s leads to where nothing may be written', async (own) => {
    await expect(place(own, linked)).rejects.toThrow('is a link to');
  });

  test('to a file of the library is followed, and stays a link', async () => {
    expect(await place('procedures/same.md', linked)).toBe(path.join(linked, 'procedures', 'a.md'));
  });

  test('that leads nowhere is replaced by the file itself, never followed out', async () => {
    await saveFiles(linked, [{ path: 'procedures/nowhere.md', base: null, text: 'mine\n' }], nodeWriteDisk);
    expect(read(linked, 'procedures/nowhere.md')).toBe('mine\n');
    await expect(async () => read(outside, 'new.md')).rejects.toThrow('ENOENT');
  });

  test('that leads to itself is written in its own place', async () => {
    expect(await place('procedures/ring.md', linked)).toBe(path.join(linked, 'procedures', 'ring.md'));
  });
});
