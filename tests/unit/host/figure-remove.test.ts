/** A figure taken away again: by the window that added it, as it was added, and only while nothing refers to it, saved or not. */
import { existsSync, unlinkSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Content, failingDisk, filesIn, type Host, hostOf, newFolder, newLibrary, put, read, SMALL } from '../../support/host.ts';

const base64 = Buffer.from('<svg/>').toString('base64');
const FAN = 'figures/fan.svg';
const GONE = { removed: true, usedIn: [] };

async function withFan(files: Readonly<Record<string, Content>> = {}): Promise<Host & { readonly folder: string }> {
  const folder = newLibrary({ ...SMALL, ...files });
  const host = await hostOf(folder);
  await host.call('figure.write', { library: host.library, name: 'fan.svg', base64 });
  return { ...host, folder };
}
const remove = ({ call, library }: Host, window?: string, own = FAN) => call('figure.remove', { library, path: own }, window);

describe('a figure that nothing refers to', () => {
  test('goes, and another time is no figure of this window any more', async () => {
    const host = await withFan({ 'figures/pump.svg': '<svg/>' });
    expect(await remove(host)).toEqual(GONE);
    expect(filesIn(host.folder).filter((own) => own.startsWith('figures/'))).toEqual(['figures/pump.svg']);
    await expect(remove(host)).rejects.toThrow('was not added by this window');
    // And may be added again.
    expect(await host.call('figure.write', { library: host.library, name: 'fan.svg', base64 })).toEqual({ path: FAN, added: true });
    expect(await remove(host)).toEqual(GONE);
  });

  test('and that somebody took away already is gone', async () => {
    const host = await withFan();
    unlinkSync(path.join(host.folder, FAN));
    expect(await remove(host)).toEqual(GONE);
  });
});

describe('a figure stays that', () => {
  test.each<[string, Record<string, Content>, string]>([
    ['a procedure shows', { 'procedures/b.md': '![Fan](figures/fan.svg)\n' }, 'procedures/b.md'],
    ['a guide names in other letters and by its address', { 'guides/g.md': 'See ../figures/FAN%2Esvg.\n' }, 'guides/g.md'],
    ['a record of reviewers speaks of', { 'review/X.yaml': 'remarks: [{says: "fan.svg is wrong"}]\n' }, 'review/X.yaml'],
    ['captions speak of', { 'narration/a/film.vtt': 'WEBVTT\n\nfan.svg\n' }, 'narration/a/film.vtt'],
    ['another drawing shows', { 'figures/all.svg': '<svg><image href="fan.svg"/></svg>' }, 'figures/all.svg'],
  ])('%s', async (_, files, user) => {
    const host = await withFan(files);
    expect(await remove(host)).toEqual({ removed: false, usedIn: [user] });
    expect(read(host.folder, FAN)).toBe('<svg/>');
  });

  test.each(['window-1', 'window-2'])('text shows that %s has not saved', async (window) => {
    const host = await withFan();
    const entries = [{ path: 'procedures/a.md', base: null, text: '![Fan](figures/fan.svg)' }];
    await host.call('journal.put', { library: host.library, window: 'some-journal', entries }, window);
    expect(await remove(host)).toEqual({ removed: false, usedIn: ['procedures/a.md'] });
    await host.call('journal.put', { library: host.library, window: 'some-journal', entries: [] }, window);
    expect(await remove(host)).toEqual(GONE);
  });

  test('was there before, whoever adds the same again', async () => {
    const folder = newLibrary({ ...SMALL, [FAN]: '<svg/>' });
    const host = await hostOf(folder);
    expect(await host.call('figure.write', { library: host.library, name: 'fan.svg', base64 })).toEqual({ path: FAN, added: false });
    await expect(remove(host)).rejects.toThrow('was not added by this window. It stays');
    expect(read(folder, FAN)).toBe('<svg/>');
  });

  test('another window added, or added too', async () => {
    const host = await withFan();
    await expect(remove(host, 'window-2')).rejects.toThrow('was not added by this window');
    await host.call('figure.write', { library: host.library, name: 'fan.svg', base64 }, 'window-2');
    for (const window of ['window-1', 'window-2']) await expect(remove(host, window)).rejects.toThrow('by another window too');
    expect(existsSync(path.join(host.folder, FAN))).toBe(true);
  });

  test('a window without a name added: such windows cannot be told apart', async () => {
    const host = await hostOf(newLibrary());
    await host.call('figure.write', { library: host.library, name: 'fan.svg', base64 }, '');
    await expect(remove(host, '')).rejects.toThrow('was not added by this window');
  });

  test('was changed since, or is a link now', async () => {
    const host = await withFan();
    put(host.folder, { [FAN]: '<svg>drawn on</svg>' });
    await expect(remove(host)).rejects.toThrow('was changed since it was added. The figure stays in the library.');
    unlinkSync(path.join(host.folder, FAN));
    const outside = newFolder();
    put(outside, { 'fan.svg': '<svg/>' });
    put(host.folder, { [FAN]: { link: path.join(outside, 'fan.svg') } });
    await expect(remove(host)).rejects.toThrow('leads out of the library');
    expect(read(outside, 'fan.svg')).toBe('<svg/>');
  });

  test('may be shown by a text that cannot be read', async () => {
    const host = await withFan({ 'procedures/bad.md': new Uint8Array([0xff, 0xfe, 0x41]) });
    await expect(remove(host)).rejects.toThrow('procedures/bad.md could not be read');
    expect(read(host.folder, FAN)).toBe('<svg/>');
  });

  test('the disk does not let go', async () => {
    const host = await hostOf(newLibrary(), { disk: failingDisk({ remove: 'EBUSY' }) });
    await host.call('figure.write', { library: host.library, name: 'fan.svg', base64 });
    await expect(remove(host)).rejects.toThrow('another program holds the file. The figure stays in the library.');
    expect(await host.call('figure.read', { library: host.library, path: FAN })).toEqual({ base64 });
  });
});

test.each(['procedures/a.md', 'library.yaml', '../fan.svg', 'figures/../library.yaml', 'figures'])(
  '%s is no figure to take away',
  async (own) => {
    const host = await withFan();
    await expect(remove(host, undefined, own)).rejects.toThrow('stays in the library');
    expect(read(host.folder, 'procedures/a.md')).toBe('first\n');
  },
);

test('of a library a figure of the same name in another library is another figure', async () => {
  const host = await withFan();
  const other = newLibrary({ ...SMALL, [FAN]: '<svg/>' });
  const { library } = await host.call('library.open', { folder: other });
  await expect(host.call('figure.remove', { library, path: FAN })).rejects.toThrow('was not added by this window');
});
