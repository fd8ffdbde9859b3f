import { mkdirSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkLibrary } from '../../../procedures-schema/index.ts';
import { filesIn, hash, hostOf, newFolder, newLibrary, newService, put, read, SMALL } from '../../support/host.ts';

describe('opening', () => {
  test('a library gives its name and its texts with the names of their bytes', async () => {
    const folder = newLibrary();
    const { call, library } = await hostOf(folder);
    const { files, paths, refusals } = await call('library.read', { library });
    expect(files.find(({ path: own }) => own === 'procedures/a.md')).toEqual({
      path: 'procedures/a.md',
      text: 'first\n',
      hash: hash('first\n'),
    });
    expect(paths).toEqual(['library.yaml', 'procedures/a.md', 'registers/equipment.yaml']);
    expect(refusals).toEqual([]);
  });

  test.each([
    ['a folder without library.yaml', () => newFolder()],
    ['a folder that is not there', () => path.join(newFolder(), 'nowhere')],
    ['a file', () => path.join(newLibrary(), 'library.yaml')],
    ['a folder whose library.yaml is a folder', () => newLibrary({ 'library.yaml/x.md': '' })],
  ])('%s is refused in words', async (_, folder) => {
    await expect(newService().call('library.open', { folder: folder() })).rejects.toThrow('is not a library: it has no library.yaml');
  });

  test('a relative path is refused', async () => {
    await expect(newService().call('library.open', { folder: 'sample' })).rejects.toThrow('by its whole path');
  });

  test('tells by size and time whether another picture is there, and reads none for it', async () => {
    const folder = newLibrary({ ...SMALL, 'figures/a.svg': '<svg/>' });
    const { call, library } = await hostOf(folder);
    const stamp = async (): Promise<string> => (await call('library.stamp', { library })).stamp;
    const first = await stamp();
    put(folder, { 'procedures/a.md': 'other words' });
    expect(await stamp()).toBe(first);
    utimesSync(path.join(folder, 'figures/a.svg'), 1, 1);
    const second = await stamp();
    expect(second).not.toBe(first);
    put(folder, { 'figures/a.svg': '<svg></svg>' });
    utimesSync(path.join(folder, 'figures/a.svg'), 1, 1);
    expect(await stamp()).not.toBe(second);
    put(folder, { 'figures/b.svg': '' });
    expect(await stamp()).not.toBe(second);
  });

  test('takes away what a crash left behind, and nothing else', async () => {
    const folder = newLibrary();
    const left = '.hc-00000000-0000-4000-8000-000000000000.part';
    put(folder, {
      [`procedures/${left}`]: 'torn',
      [`registers/${left}`]: 'torn',
      'procedures/.hc-mine.part': 'mine',
      'procedures/.x.part': 'x',
    });
    put(folder, { 'procedures/.hc-11111111-0000-4000-8000-000000000000.part': 'being written' });
    for (const own of ['procedures', 'registers']) utimesSync(path.join(folder, own, left), new Date(0), new Date(0));
    const { call, library } = await hostOf(folder);
    await call('library.read', { library });
    await expect
      .poll(() => filesIn(folder).filter((own) => own.endsWith('.part')))
      .toEqual(['procedures/.hc-11111111-0000-4000-8000-000000000000.part', 'procedures/.hc-mine.part', 'procedures/.x.part']);
  });
});

test("takes away what a crash left beside the user's own records", async () => {
  const data = newFolder();
  const left = '.hc-00000000-0000-4000-8000-000000000000.part';
  const places = [left, `cache/${left}`, `unsaved/0123/${left}`];
  put(data, Object.fromEntries([...places, 'unsaved/0123/w.journal'].map((own) => [own, 'torn'])));
  for (const own of places) utimesSync(path.join(data, ...own.split('/')), new Date(0), new Date(0));
  newService({ data });
  await expect.poll(() => filesIn(data).filter((own) => own.endsWith('.part'))).toEqual([]);
  expect(filesIn(data)).toContain('unsaved/0123/w.journal');
});

describe('recent libraries', () => {
  test('stand newest first, once each, and say when one is gone', async () => {
    const [a, b] = [newLibrary(), newLibrary()];
    const { call, data } = newService();
    for (const folder of [a, b, a]) await call('library.open', { folder });
    rmSync(b, { recursive: true });
    const { recent } = await newService({ data }).call('libraries.recent', {});
    expect(recent.map(({ folder, there }) => [folder, there])).toEqual([
      [a, true],
      [b, false],
    ]);
  });

  test('can be forgotten', async () => {
    const folder = newLibrary();
    const { call } = await hostOf(folder);
    await call('libraries.forget', { folder });
    expect((await call('libraries.recent', {})).recent).toEqual([]);
  });

  test('two opened at once both count', async () => {
    const folders = [newLibrary(), newLibrary(), newLibrary()];
    const { call } = newService();
    await Promise.all(folders.map((folder) => call('library.open', { folder })));
    expect((await call('libraries.recent', {})).recent.map(({ folder }) => folder).sort()).toEqual([...folders].sort());
  });

  test.each(['torn {', '7', '{"a":1}', '[{"folder":7,"name":"x"},{"folder":"relative","name":"x"},null]'])(
    'a list that reads %s is as none',
    async (text) => {
      const data = newFolder();
      writeFileSync(path.join(data, 'recent.json'), text);
      expect((await newService({ data }).call('libraries.recent', {})).recent).toEqual([]);
    },
  );
});

describe('a new library', () => {
  test('opens, and holds what it was given', async () => {
    const home = newFolder();
    const { call } = newService({ home });
    const { folder } = await call('library.create', { folder: home, name: 'Fans', publisher: 'Orrfen "Machines": x' });
    expect(read(folder, 'library.yaml')).toContain('publisher: "Orrfen \\"Machines\\": x"');
    const { library, name } = await call('library.open', { folder });
    expect(name).toBe('Fans');
    const { files, paths } = await call('library.read', { library });
    expect(checkLibrary(files, paths).findings).toEqual([]);
  });

  test.each(['', '..', 'a/b', '.x', 'nul', 'a:b', 'x '])('is not named "%s"', async (name) => {
    const home = newFolder();
    await expect(newService({ home }).call('library.create', { folder: home, name, publisher: 'x' })).rejects.toThrow(
      'is no name for a folder',
    );
  });

  test('needs a publisher', async () => {
    const home = newFolder();
    await expect(newService({ home }).call('library.create', { folder: home, name: 'x', publisher: '  ' })).rejects.toThrow('publisher');
  });

  test('is never made over what is there', async () => {
    const home = newFolder();
    put(home, { 'full/x.txt': 'x' });
    mkdirSync(path.join(home, 'empty'));
    const { call } = newService({ home });
    await expect(call('library.create', { folder: home, name: 'full', publisher: 'x' })).rejects.toThrow(
      'is there already and is not empty',
    );
    await expect(call('library.create', { folder: home, name: 'empty', publisher: 'x' })).resolves.toBeDefined();
  });

  test('is not made outside the folders where a user may look', async () => {
    const { call } = newService({ home: newFolder() });
    await expect(call('library.create', { folder: newFolder(), name: 'x', publisher: 'x' })).rejects.toThrow('outside your own folders');
  });
});

describe('the list of folders', () => {
  const home = newFolder();
  put(home, { 'Fans/library.yaml': 'publisher: x\n', 'work/x.md': '', '.ssh/id': '', 'Balers/deep/library.yaml': 'publisher: x\n' });

  test('begins at home, says which are libraries, and shows nothing hidden', async () => {
    const { call } = newService({ home });
    expect((await call('folder.list', {})).folders).toEqual([{ folder: home, name: path.basename(home), library: false }]);
    const { folders, parent } = await call('folder.list', { folder: home });
    expect(parent).toBeUndefined();
    expect(folders.map(({ name, library }) => [name, library])).toEqual([
      ['Balers', false],
      ['Fans', true],
      ['work', false],
    ]);
  });

  test('goes down, and up again as far as home', async () => {
    const { call } = newService({ home });
    expect(await call('folder.list', { folder: path.join(home, 'Balers') })).toMatchObject({
      parent: home,
      folders: [{ name: 'deep', library: true }],
    });
  });

  test('also begins beside the libraries used last', async () => {
    const folder = newLibrary();
    const { call } = await hostOf(folder, { home });
    expect((await call('folder.list', {})).folders.map((one) => one.folder)).toContain(path.dirname(folder));
  });

  test.each([
    ['above home', () => path.dirname(home)],
    ['beside home', () => newFolder()],
    ['hidden', () => path.join(home, '.ssh')],
    ['by way of home', () => path.join(home, '..')],
    ['relative', () => 'work'],
    ['not there', () => path.join(home, 'nowhere')],
  ])('shows no folder %s', async (_, folder) => {
    await expect(newService({ home }).call('folder.list', { folder: folder() })).rejects.toThrow(
      /outside your own folders|There is no folder/,
    );
  });

  test('follows no link out of home', async () => {
    const outside = newFolder();
    const linked = newFolder();
    put(linked, { away: { link: outside } });
    const { call } = newService({ home: linked });
    expect((await call('folder.list', { folder: linked })).folders).toEqual([]);
    await expect(call('folder.list', { folder: path.join(linked, 'away') })).rejects.toThrow('outside your own folders');
  });
});

describe('renaming', () => {
  const base = hash('first\n');
  test('moves a text, into a new folder too', async () => {
    const folder = newLibrary();
    const { call, library } = await hostOf(folder);
    expect(await call('file.rename', { library, from: 'procedures/a.md', to: 'procedures/new/b.md', base })).toEqual({ conflict: null });
    expect(filesIn(folder)).toContain('procedures/new/b.md');
    expect(filesIn(folder)).not.toContain('procedures/a.md');
  });

  test('changes only the case of a name', async () => {
    const folder = newLibrary();
    const { call, library } = await hostOf(folder);
    await call('file.rename', { library, from: 'procedures/a.md', to: 'procedures/A.md', base });
    expect(filesIn(folder)).toContain('procedures/A.md');
  });

  test.each(['procedures/b.md', 'procedures/B.md'])('never goes over another file: %s', async (to) => {
    const folder = newLibrary({ ...SMALL, 'procedures/b.md': 'b\n' });
    const { call, library } = await hostOf(folder);
    await expect(call('file.rename', { library, from: 'procedures/a.md', to, base })).rejects.toThrow('procedures/b.md is there already');
    expect([read(folder, 'procedures/a.md'), read(folder, 'procedures/b.md')]).toEqual(['first\n', 'b\n']);
  });

  test('never goes over a file that differs only in case and is there too', async () => {
    const folder = newLibrary({ ...SMALL, 'procedures/A.md': 'other\n' });
    // Where the two names are one file there is nothing to lose.
    if (read(folder, 'procedures/a.md') !== 'first\n') return;
    const { call, library } = await hostOf(folder);
    await expect(call('file.rename', { library, from: 'procedures/a.md', to: 'procedures/A.md', base })).rejects.toThrow(
      'is there already',
    );
  });

  test('leaves a file alone that changed on disk', async () => {
    const folder = newLibrary();
    const { call, library } = await hostOf(folder);
    put(folder, { 'procedures/a.md': 'theirs\n' });
    const { conflict } = await call('file.rename', { library, from: 'procedures/a.md', to: 'procedures/b.md', base });
    expect(conflict).toEqual({ path: 'procedures/a.md', text: 'theirs\n', hash: hash('theirs\n') });
    expect(filesIn(folder)).toContain('procedures/a.md');
  });

  test.each(['../b.md', 'out/b.md', 'procedures/con.md'])('goes to no place such as %s', async (to) => {
    const { call, library } = await hostOf(newLibrary());
    await expect(call('file.rename', { library, from: 'procedures/a.md', to, base })).rejects.toThrow('is no place in a library');
  });
});

describe('removing', () => {
  test('takes a text that is as the writer saw it', async () => {
    const folder = newLibrary();
    const { call, library } = await hostOf(folder);
    expect(await call('file.remove', { library, path: 'procedures/a.md', base: hash('first\n') })).toEqual({ conflict: null });
    expect(filesIn(folder)).not.toContain('procedures/a.md');
  });

  test('leaves one that changed meanwhile', async () => {
    const folder = newLibrary();
    const { call, library } = await hostOf(folder);
    const { conflict } = await call('file.remove', { library, path: 'procedures/a.md', base: hash('older\n') });
    expect(conflict?.text).toBe('first\n');
    expect(filesIn(folder)).toContain('procedures/a.md');
  });

  test('of library.yaml is refused', async () => {
    const folder = newLibrary();
    const { call, library } = await hostOf(folder);
    await expect(call('file.remove', { library, path: 'library.yaml', base: hash(read(folder, 'library.yaml')) })).rejects.toThrow(
      'no library',
    );
  });
});

describe('reading', () => {
  test('one text, also a remark', async () => {
    const { call, library } = await hostOf(newLibrary({ ...SMALL, 'review/A-1.yaml': 'remarks:\n' }));
    expect((await call('file.read', { library, path: 'review/A-1.yaml' })).file).toEqual({
      path: 'review/A-1.yaml',
      text: 'remarks:\n',
      hash: hash('remarks:\n'),
    });
    expect((await call('file.read', { library, path: 'review/none.yaml' })).file).toBeNull();
  });

  test.each(['figures/../library.yaml', 'procedures/a.md', '../x', '.git/config', 'figures/.hidden'])('%s is no figure', async (own) => {
    const { call, library } = await hostOf(newLibrary({ ...SMALL, '.git/config': 'x', 'figures/.hidden': 'x' }));
    await expect(call('figure.read', { library, path: own })).rejects.toThrow('is not there, is too large, or lies outside');
  });
});

describe('a figure', () => {
  const base64 = Buffer.from('<svg/>').toString('base64');
  test('is added, and the same one again is no trouble', async () => {
    const folder = newLibrary();
    const { call, library } = await hostOf(folder);
    expect(await call('figure.write', { library, name: 'fan.svg', base64 })).toEqual({ path: 'figures/fan.svg', added: true });
    expect(await call('figure.write', { library, name: 'fan.svg', base64 })).toEqual({ path: 'figures/fan.svg', added: false });
    expect((await call('figure.read', { library, path: 'figures/fan.svg' })).base64).toBe(base64);
  });

  test.each(['fan.svg', 'FAN.svg'])('never takes the place of another: %s', async (name) => {
    const folder = newLibrary({ ...SMALL, 'figures/fan.svg': 'old' });
    const { call, library } = await hostOf(folder);
    await expect(call('figure.write', { library, name, base64 })).rejects.toThrow('figures/fan.svg is another figure of that name');
    expect(read(folder, 'figures/fan.svg')).toBe('old');
  });

  test.each(['fan.exe', '../fan.svg', 'deep/fan.svg', '.fan.svg', 'con.svg'])('is not named %s', async (name) => {
    const { call, library } = await hostOf(newLibrary());
    await expect(call('figure.write', { library, name, base64 })).rejects.toThrow('is no place in a library');
  });
});

describe('what is written for printing', () => {
  const base64 = Buffer.from('%PDF-').toString('base64');
  test('lies in the folder out, and can be shown', async () => {
    const folder = newLibrary();
    const { call, library } = await hostOf(folder);
    const written = await call('output.write', { library, name: 'OM-1.pdf', base64 });
    expect(written.path).toBe(path.join(folder, 'out', 'OM-1.pdf'));
    expect(await call('output.show', { library, name: 'OM-1.pdf', how: 'print' })).toEqual({ address: `/output/${library}/OM-1.pdf` });
  });

  test.each(['../x.pdf', 'x.exe', '.x.pdf', 'a/b.pdf', 'nul.pdf', 'x.pdf\0', ''])('is not named "%s"', async (name) => {
    const { call, library } = await hostOf(newLibrary());
    await expect(call('output.write', { library, name, base64 })).rejects.toThrow(/is no (name for a file|place in a library)/);
  });

  test('is shown in known ways only, and only when it is there', async () => {
    const { call, library } = await hostOf(newLibrary());
    await expect(call('output.show', { library, name: 'x.pdf', how: 'read' })).rejects.toThrow('write it first');
    await expect(call('output.show', { library, name: 'x.pdf', how: 'run' as never })).rejects.toThrow(
      'must be one of read, print, folder',
    );
  });

  test.skipIf(process.platform === 'win32')('does not follow a link out of the library', async () => {
    const outside = newFolder();
    const { call, library } = await hostOf(newLibrary({ ...SMALL, out: { link: outside } }));
    await expect(call('output.write', { library, name: 'x.pdf', base64 })).rejects.toThrow('leads out of the library by a link');
    expect(filesIn(outside)).toEqual([]);
  });
});

describe('settings', () => {
  test('are kept for the next run', async () => {
    const { call, data } = newService();
    await call('settings.write', { name: 'language', value: 'de' });
    expect((await newService({ data }).call('settings.read', {})).settings.language).toBe('de');
  });

  test('take only what is allowed', async () => {
    const { call } = newService();
    await expect(call('settings.write', { name: 'language', value: 'no such language' })).rejects.toThrow('cannot be');
    await expect(call('settings.write', { name: 'findings' as never, value: 'off' })).rejects.toThrow('There is no setting "findings".');
    await expect(call('settings.write', { name: 'toString' as never, value: 'off' })).rejects.toThrow('There is no setting');
  });
});

test.skipIf(process.platform === 'win32')("the user's own data is nobody else's to read", async () => {
  const data = path.join(newFolder(), 'own');
  await newService({ data }).call('settings.write', { name: 'tour', value: 'seen' });
  expect((statSync(data).mode & 0o777).toString(8)).toBe('700');
});

test('in a browser there is no system dialog, and the page is told so', async () => {
  const { call } = newService();
  expect((await call('libraries.recent', {})).chooser).toBe('page');
  await expect(call('folder.choose', { title: 'Open' })).rejects.toThrow('no dialog');
  await expect(call('menu.set', { menus: [] })).resolves.toEqual({});
});
