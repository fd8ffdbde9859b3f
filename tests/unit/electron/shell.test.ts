/** The shell as a whole, booted on a stand-in for Electron: windows, second starts, menus, closing, printing, what crosses the gate. */
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import type { MethodName } from '../../../electron/host/contract/index.ts';
import { electron, type FakeContents, FakeWindow, held } from '../../support/electron.ts';
import { filesIn, hash, newFolder, newLibrary, put, read } from '../../support/host.ts';

vi.mock('electron', () => electron);

const { app, dialog, ipcMain, Menu, shell } = electron;
const data = newFolder();
const library = newLibrary();
const PAGE = 'handsclear://page/';

type Reply = { readonly ok: boolean; readonly value?: never; readonly error?: { readonly message: string } };

/** As the page in a window would ask. */
async function ask(contents: FakeContents, method: MethodName | string, request: unknown, frame?: unknown): Promise<Reply> {
  const handler = ipcMain.handlers.get('handsclear:call');
  return (await handler?.({ sender: contents, senderFrame: frame ?? contents.mainFrame }, method, request)) as Reply;
}

const last = (): FakeWindow => {
  const window = FakeWindow.all.at(-1);
  if (!window) throw new Error('No window was made.');
  return window;
};

beforeAll(async () => {
  vi.stubEnv('HANDSCLEAR_DATA', data);
  process.argv = ['electron', 'program', library];
  await import('../../../electron/main.ts');
  await vi.waitFor(() => expect(last().asked).toContain('show'));
});

describe('the first window', () => {
  test('shows the page, and is shown itself only when there is something to see', () => {
    expect(last().asked).toEqual([`load ${PAGE}`, 'show']);
    expect(last().options.show).toBe(false);
  });

  test('is told which library it was opened for', async () => {
    const { value } = await ask(last().webContents, 'libraries.recent', {});
    expect(value).toMatchObject({ open: library, chooser: 'system' });
  });

  test('opens, reads and saves over the gate', async () => {
    const { webContents } = last();
    const opened = await ask(webContents, 'library.open', { folder: library });
    const id = (opened.value as unknown as { library: string }).library;
    const files = [{ path: 'procedures/a.md', base: hash('first\n'), text: 'second\n' }];
    expect(await ask(webContents, 'file.save', { library: id, files })).toMatchObject({ ok: true });
    expect(read(library, 'procedures/a.md')).toBe('second\n');
    expect(app.asked).toContain(`recent ${library}`);
  });

  test('takes a figure away that it added, and none that a text shows', async () => {
    const { webContents } = last();
    const { value } = await ask(webContents, 'library.open', { folder: library });
    const { library: id } = value as unknown as { library: string };
    const base64 = Buffer.from('<svg/>').toString('base64');
    for (const name of ['fan.svg', 'shown.svg']) await ask(webContents, 'figure.write', { library: id, name, base64 });
    put(library, { 'procedures/shows.md': '![It](figures/shown.svg)\n' });
    expect(await ask(webContents, 'figure.remove', { library: id, path: 'figures/fan.svg' })).toMatchObject({
      ok: true,
      value: { removed: true },
    });
    expect(await ask(webContents, 'figure.remove', { library: id, path: 'figures/shown.svg' })).toMatchObject({
      ok: true,
      value: { removed: false, usedIn: ['procedures/shows.md'] },
    });
    expect(filesIn(library).filter((own) => own.startsWith('figures/'))).toEqual(['figures/shown.svg']);
  });

  test('hears what changes on disk', async () => {
    const { value } = await ask(last().webContents, 'library.open', { folder: library });
    await ask(last().webContents, 'library.read', { library: (value as unknown as { library: string }).library });
    put(library, { 'procedures/new.md': 'new\n' });
    await expect.poll(() => JSON.stringify(last().webContents.sent)).toContain('procedures/new.md');
  });

  test('gets refusals in words, and faults with the method that failed', async () => {
    const refused = await ask(last().webContents, 'library.open', { folder: newFolder() });
    expect(refused).toMatchObject({ ok: false, refused: true, error: { message: expect.stringContaining('is not a library') } });
    expect(await ask(last().webContents, 'nothing', {})).toMatchObject({ ok: false, refused: true });
  });
});

describe('unsaved text', () => {
  test('of a page that crashed or was opened anew is offered to the next page of the same window', async () => {
    const { webContents } = last();
    const { value } = await ask(webContents, 'library.open', { folder: library });
    const id = (value as unknown as { library: string }).library;
    const entries = [{ path: 'procedures/a.md', base: null, text: 'unsaved\n' }];
    await ask(webContents, 'journal.put', { library: id, window: 'first-page', entries });
    webContents.emit('did-start-navigation', { isMainFrame: true, isSameDocument: false, url: PAGE });
    const listed = await ask(webContents, 'journal.list', { library: id });
    expect(listed.value).toEqual({ entries: [{ ...entries[0], window: 'first-page' }] });
    await ask(webContents, 'journal.drop', { library: id });
  });

  test('of a window is not offered to another while it is open', async () => {
    app.emit('second-instance', held(), ['electron', 'program', newLibrary()], library);
    await expect.poll(() => FakeWindow.all.length).toBe(2);
    const [first, second] = FakeWindow.all.map(({ webContents }) => webContents) as [FakeContents, FakeContents];
    const { value } = await ask(first, 'library.open', { folder: library });
    const id = (value as unknown as { library: string }).library;
    await ask(first, 'journal.put', { library: id, window: 'own', entries: [{ path: 'procedures/a.md', base: null, text: 'x' }] });
    expect((await ask(second, 'journal.list', { library: id })).value).toEqual({ entries: [] });
    FakeWindow.all[0]?.emit('closed');
    expect((await ask(second, 'journal.list', { library: id })).value).toMatchObject({ entries: [{ text: 'x' }] });
    // A window that is gone asks no more.
    expect(await ask(first, 'journal.list', { library: id })).toMatchObject({ ok: false });
  });
});

describe('a second start', () => {
  test('with a library that is open brings its window to the front', async () => {
    const folder = newLibrary();
    const count = FakeWindow.all.length + 1;
    app.emit('second-instance', held(), ['electron', 'program', folder], folder);
    await expect.poll(() => FakeWindow.all.length).toBe(count);
    app.emit('second-instance', held(), ['electron', 'program', '--some-switch', 'procedures/a.md'], folder);
    await expect.poll(() => last().asked).toContain('focus');
    expect(FakeWindow.all).toHaveLength(count);
    expect(last().webContents.sent).toContainEqual(['handsclear:event', { event: 'show', path: 'procedures/a.md' }]);
  });

  test('with a file of another library opens that library at that file', async () => {
    const folder = newLibrary();
    const count = FakeWindow.all.length;
    const event = held();
    app.emit('open-file', event, path.join(folder, 'procedures', 'a.md'));
    expect(event.defaultPrevented).toBe(true);
    await expect.poll(() => FakeWindow.all.length).toBe(count + 1);
    expect((await ask(last().webContents, 'libraries.recent', {})).value).toMatchObject({ open: folder, show: 'procedures/a.md' });
  });

  test('with nothing brings the newest window to the front', async () => {
    const count = FakeWindow.all.length;
    last().asked.length = 0;
    app.emit('second-instance', held(), ['electron', 'program'], newFolder());
    await expect.poll(() => last().asked).toEqual(['show', 'focus']);
    expect(FakeWindow.all).toHaveLength(count);
  });
});

describe('the menu', () => {
  const items = (): string => JSON.stringify(Menu.shown, (key, value) => (key === 'click' ? undefined : value));

  test("takes the page's own items in the page's language and adds the shell's", async () => {
    const menus = [{ name: 'file', label: 'Datei', actions: [{ name: 'save', label: 'Alles speichern', keys: 'Mod+S' }] }];
    await ask(last().webContents, 'menu.set', { menus });
    await expect.poll(items).toContain('Alles speichern');
    expect(items()).toContain('"accelerator":"Ctrl+S","registerAccelerator":false');
    expect(items()).toContain('New window');
  });

  test('names the libraries used last', async () => {
    const folder = newLibrary();
    await ask(last().webContents, 'library.open', { folder });
    await expect.poll(items).toContain(path.basename(folder));
  });

  test('speaks the language that was set', async () => {
    await ask(last().webContents, 'settings.write', { name: 'language', value: 'de' });
    await expect.poll(items).toContain('Neues Fenster');
    await ask(last().webContents, 'settings.write', { name: 'language', value: 'en' });
    await expect.poll(items).toContain('New window');
  });

  test('sends what is chosen to the window in front only', async () => {
    const find = (label: string): { click: () => void } | undefined =>
      (Menu.shown as { submenu: { label?: string; click: () => void }[] }[])
        .flatMap(({ submenu }) => submenu)
        .find((one) => one.label === label);
    for (const { webContents } of FakeWindow.all) webContents.sent.length = 0;
    FakeWindow.focused = last();
    find('Alles speichern')?.click();
    FakeWindow.focused = null;
    const heard = FakeWindow.all.filter(({ webContents }) => webContents.sent.length > 0);
    expect(heard).toEqual([last()]);
    expect(last().webContents.sent).toEqual([['handsclear:event', { event: 'action', name: 'save' }]]);
  });
});

describe('a folder', () => {
  test('is chosen in the system dialog, and a library may then be made in it', async () => {
    const folder = newFolder();
    dialog.folder = folder;
    expect((await ask(last().webContents, 'folder.choose', { title: 'Where' })).value).toEqual({ folder });
    expect(await ask(last().webContents, 'library.create', { folder, name: 'Fans', publisher: 'Orrfen Machines' })).toMatchObject({
      ok: true,
    });
    dialog.folder = undefined;
    expect((await ask(last().webContents, 'folder.choose', { title: 'Where' })).value).toEqual({});
  });
});

describe('closing a window with text that is not saved', () => {
  const close = (answer: number) => {
    dialog.answer = answer;
    dialog.asked.length = 0;
    const event = held();
    last().asked.length = 0;
    last().webContents.sent.length = 0;
    last().webContents.emit('will-prevent-unload', event);
    return event;
  };

  test('asks, and says what happens to the text', () => {
    expect(close(2).defaultPrevented).toBe(false);
    expect(dialog.asked[0]).toMatchObject({ message: 'Some text is not saved.', buttons: ['Save all', 'Go on without saving', 'Stay'] });
    expect(dialog.asked[0]?.detail).toContain('offered again');
    expect(last().asked).toEqual([]);
  });

  test('without saving: the window closes', () => {
    expect(close(1).defaultPrevented).toBe(true);
  });

  test('with saving: the page saves, and when it has, the window closes', async () => {
    expect(close(0).defaultPrevented).toBe(false);
    expect(last().webContents.sent).toEqual([['handsclear:event', { event: 'action', name: 'save' }]]);
    last().webContents.emit('page-title-updated', held(), '• Fans – Handsclear');
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(last().asked).toEqual([]);
    last().webContents.emit('page-title-updated', held(), 'Fans – Handsclear');
    await expect.poll(() => last().asked).toEqual(['close']);
  });

  test('on the way to quitting: then quitting goes on', async () => {
    app.emit('before-quit', held());
    app.asked.length = 0;
    close(0);
    last().webContents.emit('page-title-updated', held(), 'Fans – Handsclear');
    await expect.poll(() => app.asked).toEqual(['quit']);
  });

  test('that cannot be saved: the window stays and says so', async () => {
    vi.useFakeTimers();
    close(0);
    await vi.advanceTimersByTimeAsync(21_000);
    vi.useRealTimers();
    await expect.poll(() => dialog.asked.at(-1)?.message).toContain('Not everything could be saved');
    expect(last().asked).toEqual([]);
  });
});

describe('a page that stops', () => {
  test('is opened anew when the user wants', async () => {
    dialog.answer = 0;
    last().webContents.emit('render-process-gone', held(), { reason: 'crashed' });
    await expect.poll(() => last().webContents.asked).toContain('reload');
    expect(dialog.asked.at(-1)?.detail).toContain('up to the last second');
  });

  test('that hangs is waited for, or ended', async () => {
    last().webContents.asked.length = 0;
    dialog.answer = 0;
    last().emit('unresponsive');
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(last().webContents.asked).toEqual([]);
    dialog.answer = 1;
    last().emit('unresponsive');
    await expect.poll(() => last().webContents.asked).toEqual(['crash']);
  });
});

describe('what was written', () => {
  async function written(name: string): Promise<{ readonly id: string; readonly file: string }> {
    const { value } = await ask(last().webContents, 'library.open', { folder: library });
    const id = (value as unknown as { library: string }).library;
    mkdirSync(path.join(library, 'out'), { recursive: true });
    const file = path.join(library, 'out', name);
    writeFileSync(file, '%PDF-1.7');
    return { id, file };
  }

  test('is read in the system viewer, and found in its folder', async () => {
    const { id, file } = await written('a.pdf');
    await ask(last().webContents, 'output.show', { library: id, name: 'a.pdf', how: 'read' });
    await ask(last().webContents, 'output.show', { library: id, name: 'a.pdf', how: 'folder' });
    expect(shell.asked).toEqual([`open ${file}`, `show ${file}`]);
  });

  test('and is no PDF is not handed to whatever program the system has for it', async () => {
    const { id } = await written('a.svg');
    for (const how of ['read', 'print'])
      expect(await ask(last().webContents, 'output.show', { library: id, name: 'a.svg', how })).toMatchObject({ ok: false, refused: true });
  });

  test('is printed from a window that has no way to the host', async () => {
    const { id } = await written('b.pdf');
    const asker = last();
    await ask(asker.webContents, 'output.show', { library: id, name: 'b.pdf', how: 'print' });
    const window = last();
    expect(window).not.toBe(asker);
    expect(window.webContents.asked).toEqual(['print {"silent":false}']);
    expect(window.options.webPreferences).toMatchObject({ sandbox: true, contextIsolation: true, nodeIntegration: false });
    expect(window.options.webPreferences.preload).toBeUndefined();
    expect(await ask(window.webContents, 'libraries.recent', {})).toMatchObject({ ok: false });
    const own = electron.session.fromPartition('printed pages');
    const address = window.webContents.url;
    expect(await (await own.fetch(address)).text()).toBe('%PDF-1.7');
    expect((await own.fetch('handsclear://printed/99.pdf')).status).toBe(404);
    expect((await own.fetch('handsclear://page/')).status).toBe(404);
    window.emit('closed');
    expect((await own.fetch(address)).status).toBe(404);
    FakeWindow.all.pop();
  });
});

test('the place of a window is kept', async () => {
  last().emit('close');
  await expect
    .poll(() => JSON.parse(read(data, 'window.json')))
    .toEqual({
      width: 1000,
      height: 700,
      place: { x: 10, y: 20 },
      maximized: false,
    });
});

test('what the browser part keeps lies apart from what the host keeps', () => {
  expect(app.paths.get('userData')).toBe(path.join(data, 'shell'));
});

describe('the end', () => {
  test('comes when what was asked to be written is written', async () => {
    const { value } = await ask(last().webContents, 'library.open', { folder: library });
    const id = (value as unknown as { library: string }).library;
    const files = [{ path: 'procedures/last.md', base: null, text: 'last words\n' }];
    const saving = ask(last().webContents, 'file.save', { library: id, files });
    await new Promise((resolve) => setImmediate(resolve));
    app.asked.length = 0;
    const first = held();
    app.emit('will-quit', first);
    expect(first.defaultPrevented).toBe(true);
    expect(app.asked).toEqual([]);
    await expect.poll(() => app.asked).toEqual(['quit']);
    expect(await saving).toMatchObject({ ok: true });
    expect(read(library, 'procedures/last.md')).toBe('last words\n');
    const second = held();
    app.emit('will-quit', second);
    expect(second.defaultPrevented).toBe(false);
  });
});
