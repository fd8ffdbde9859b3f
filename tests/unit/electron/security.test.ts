/**
 * The security checklist that Electron publishes, point by point: electron/electron, docs/tutorial/security.md, points 1 to 20. Points 18 to
 * 20 stand in its newer issues only. Where a point is about something that this program does not have, the test looks that it has none.
 */
import { existsSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { parse } from 'yaml';
import { METHODS } from '../../../electron/host/contract/index.ts';
import { electron, FakeContents, FakeSession, FakeWindow, held } from '../../support/electron.ts';
import { newFolder, newLibrary, put } from '../../support/host.ts';
import { readText, repositoryFiles } from '../../tidy/source.ts';

vi.mock('electron', () => electron);

const PAGE = 'handsclear://page/';
const window = (): FakeWindow => FakeWindow.all[0] as FakeWindow;
const ask = (event: object, method: unknown = 'libraries.recent', request: unknown = {}) =>
  electron.ipcMain.handlers.get('handsclear:call')?.(event, method, request) as Promise<{ readonly ok: boolean }>;

/** Sources of shell and page, without the tests. */
const sources = repositoryFiles().filter((file) => /^(electron|renderer)\/.*\.(ts|tsx|html)$/.test(file));
const saying = (pattern: RegExp): readonly string[] => sources.filter((file) => pattern.test(readText(file)));

beforeAll(async () => {
  vi.stubEnv('HANDSCLEAR_DATA', newFolder());
  process.argv = ['electron', 'program', newLibrary()];
  await import('../../../electron/main.ts');
  await vi.waitFor(() => expect(window().asked).toContain('show'));
});

describe('1. Only load secure content', () => {
  test('the window loads its own secure scheme and nothing else', () => {
    expect(window().asked[0]).toBe(`load ${PAGE}`);
    const [own] = electron.protocol.schemes;
    expect(own).toMatchObject({ scheme: 'handsclear', privileges: { standard: true, secure: true } });
  });

  test.each([
    'http://example.com/',
    'https://example.com/x.js',
    'ws://127.0.0.1/',
    'file:///etc/hosts',
    'ftp://example.com/',
    'chrome://gpu',
    'about',
  ])('no request reaches %s', async (url) => expect(await electron.session.defaultSession.reaches(url)).toBe(false));

  test.each([PAGE, 'blob:handsclear://page/1', 'data:,', 'devtools://devtools/x.js'])('%s is of the page itself', async (url) => {
    expect(await electron.session.defaultSession.reaches(url)).toBe(true);
  });
});

describe('2. Do not enable Node.js integration', () => {
  test('in pages, workers or frames', () => {
    expect(window().options.webPreferences).toMatchObject({
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
    });
  });
});

describe('3. Enable context isolation', () => {
  test('in every window', () => expect(window().options.webPreferences.contextIsolation).toBe(true));
});

describe('4. Enable process sandboxing', () => {
  test('in every window, and for the program as a whole before it is ready', () => {
    expect(window().options.webPreferences.sandbox).toBe(true);
    expect(electron.app.asked[0]).toBe('sandbox');
  });

  test('nothing switches it off: the one switch there is says how the engine keeps its memory', () => {
    expect(saying(/no-sandbox|disableHardwareAcceleration/)).toEqual([]);
    expect(saying(/appendSwitch|appendArgument/)).toEqual(['electron/page-engine.ts']);
    expect(electron.app.asked.filter((asked) => asked.startsWith('switch'))).toEqual(['switch js-flags=--no-allocation-site-pretenuring']);
  });

  test('the preload asks for nothing that a sandbox does not have', () => {
    const imports = readText('electron/preload.ts').match(/from '([^']+)'/g);
    expect(imports).toEqual(["from 'electron'", "from './channels.ts'", "from './host/contract/index.ts'"]);
  });
});

describe('5. Handle permission requests', () => {
  const own = electron.session.defaultSession;
  const page = new FakeContents();
  page.url = PAGE;
  const requested = (permission: string, contents = page): Promise<boolean> =>
    new Promise((resolve) => own.permissionRequest?.(...([contents, permission, resolve] as never[])));

  test.each([
    'media',
    'geolocation',
    'notifications',
    'clipboard-read',
    'midi',
    'fullscreen',
    'openExternal',
    'display-capture',
    'unknown',
  ])('%s is refused', async (permission) => {
    expect(await requested(permission)).toBe(false);
    expect(own.permissionCheck?.(...([page, permission] as never[]))).toBe(false);
  });

  test('the page may put on the clipboard what the user copied, and no other page may', async () => {
    expect(await requested('clipboard-sanitized-write')).toBe(true);
    const other = new FakeContents();
    other.url = 'https://example.com/';
    expect(await requested('clipboard-sanitized-write', other)).toBe(false);
    expect(own.permissionCheck?.(...([null, 'clipboard-sanitized-write'] as never[]))).toBe(false);
  });

  test('no device is given', () => expect(own.device?.()).toBe(false));

  test('nothing is downloaded, and no dictionary is fetched', () => {
    const event = held();
    own.events.emit('will-download', event);
    expect(event.defaultPrevented).toBe(true);
    expect(own.spellChecker).toBe(false);
  });
});

describe('6. Do not disable webSecurity', () => {
  test('it is on', () => expect(window().options.webPreferences.webSecurity).toBe(true));
});

describe('7. Define a Content-Security-Policy', () => {
  const page = newFolder();
  const served = async (address: string): Promise<Response> => {
    const { servePage } = await import('../../../electron/scheme.ts');
    const session = new FakeSession();
    put(page, { 'index.html': 'page', 'assets/a.js': 'x', 'secret.js': 'x' });
    servePage(session as never, page);
    return session.fetch(address);
  };

  test.each([PAGE, `${PAGE}assets/a.js`, `${PAGE}nowhere`])('a strict one comes with every answer: %s', async (address) => {
    const policy = (await served(address)).headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toMatch(/unsafe-eval|script-src[^;]*unsafe-inline|https?:|\*/);
  });

  test('the page holds no script of its own text, which the policy would have to allow', () => {
    expect(readText('renderer/index.html').match(/<script(?![^>]*src=)/g)).toBeNull();
    expect(readText('renderer/index.html')).not.toMatch(/\son[a-z]+=/);
  });
});

describe('8. Do not enable allowRunningInsecureContent', () => {
  test('it is off', () => expect(window().options.webPreferences.allowRunningInsecureContent).toBe(false));
});

describe('9. Do not enable experimental features', () => {
  test('they are off', () => expect(window().options.webPreferences.experimentalFeatures).toBe(false));
});

describe('10. Do not use enableBlinkFeatures', () => {
  test('nobody does', () => {
    expect(window().options.webPreferences.enableBlinkFeatures).toBeUndefined();
    expect(saying(/enableBlinkFeatures|enable-blink-features/)).toEqual([]);
  });
});

describe('11. and 12. <webview>', () => {
  test('there is none, and none can be attached', () => {
    expect(window().options.webPreferences.webviewTag).toBe(false);
    expect(saying(/<webview|allowpopups/)).toEqual([]);
    const event = held();
    window().webContents.emit('will-attach-webview', event);
    expect(event.defaultPrevented).toBe(true);
  });
});

describe('13. Disable or limit navigation', () => {
  const goes = (name: string, more: object): boolean => {
    const event = held(more as never);
    window().webContents.emit(name, event);
    return !event.defaultPrevented;
  };

  test.each([
    'https://example.com/',
    'http://127.0.0.1/',
    'file:///etc/hosts',
    'javascript:alert(1)',
    'data:text/html,x',
    'handsclear://printed/1.pdf',
    'handsclear://page.example/',
    'handsclear://page/secret',
    'handsclear://page/?x',
    'handsclear://user@page/',
    'handsclear-x://page/',
    '',
  ])('not to %s', (url) => expect(goes('will-navigate', { url })).toBe(false));

  test.each([PAGE, `${PAGE}#language=de`])('to the page itself anew: %s', (url) => expect(goes('will-navigate', { url })).toBe(true));

  test('no redirection, and no frame', () => {
    expect(goes('will-redirect', { url: PAGE })).toBe(false);
    expect(goes('will-frame-navigate', { url: 'https://example.com/', isMainFrame: false })).toBe(false);
    expect(goes('will-frame-navigate', { url: PAGE, isMainFrame: true })).toBe(true);
  });

  test('dropping a file on the window does not open it there', () => {
    expect(window().options.webPreferences.navigateOnDragDrop).toBe(false);
  });

  test('holds for every page that is ever made, whoever makes it', () => {
    const stranger = new FakeContents();
    electron.app.emit('web-contents-created', {}, stranger);
    const event = held({ url: 'https://example.com/' });
    stranger.emit('will-navigate', event);
    expect(event.defaultPrevented).toBe(true);
  });
});

describe('14. Disable or limit creation of new windows', () => {
  test.each(['https://example.com/', PAGE, 'about:blank', 'javascript:1'])('none for %s', (url) => {
    expect(window().webContents.openHandler?.({ url })).toEqual({ action: 'deny' });
  });
});

describe('15. Do not use shell.openExternal with untrusted content', () => {
  test('it is not used at all', () => expect(saying(/openExternal\(/)).toEqual([]));
  test('and files are shown only when this program wrote them: one place', () =>
    expect(saying(/openPath\(/)).toEqual(['electron/written.ts']));
});

describe('16. Use a current version of Electron', () => {
  test('it is pinned, so that raising it is a change that is seen and tested', () => {
    const { devDependencies } = JSON.parse(readText('package.json')) as { devDependencies: Record<string, string> };
    expect(devDependencies.electron).toMatch(/^\d+\.\d+\.\d+$/);
    const installed = JSON.parse(readText('node_modules/electron/package.json')) as { version: string };
    expect(installed.version).toBe(devDependencies.electron);
  });
});

describe('17. Validate the sender of all IPC messages', () => {
  const sender = (): FakeContents => window().webContents;
  test('the page itself is answered', async () => {
    expect(await ask({ sender: sender(), senderFrame: sender().mainFrame })).toMatchObject({ ok: true });
  });

  const strangers: readonly (readonly [string, () => object])[] = [
    ['a frame that is gone', () => ({ sender: sender(), senderFrame: null })],
    ['a frame inside the page', () => ({ sender: sender(), senderFrame: { url: PAGE, parent: sender().mainFrame } })],
    ['another page in the window', () => ({ sender: sender(), senderFrame: { url: 'https://example.com/', parent: null } })],
    ['another host of the scheme', () => ({ sender: sender(), senderFrame: { url: 'handsclear://printed/1.pdf', parent: null } })],
    ['a page with no address', () => ({ sender: sender(), senderFrame: { url: '', parent: null } })],
    ['a window that is not ours', () => ({ sender: new FakeContents(), senderFrame: { url: PAGE, parent: null } })],
  ];
  test.each(strangers)('%s is not', async (_, event) => {
    for (const method of Object.keys(METHODS)) expect(await ask(event(), method)).toMatchObject({ ok: false, refused: true });
  });

  test.each([null, 7, {}, ['library.open'], '', 'constructor', '__proto__'])('a method named %j is none', async (method) => {
    expect(await ask({ sender: sender(), senderFrame: sender().mainFrame }, method)).toMatchObject({ ok: false, refused: true });
  });

  test('there is one gate', () => {
    expect([...electron.ipcMain.handlers.keys()]).toEqual(['handsclear:call']);
    expect(saying(/ipcMain\.(on|once|handle|handleOnce)\(/)).toEqual(['electron/ipc.ts']);
  });
});

describe('18. Avoid file:// and prefer a scheme of one’s own', () => {
  test('nobody loads a file by its path', () => expect(saying(/loadFile\(|['"`]file:\/\//)).toEqual([]));

  test.each([
    'handsclear://page/secret.js',
    'handsclear://page/assets/..%2fsecret.js',
    'handsclear://page/assets/../secret.js',
    'handsclear://other/',
    'handsclear://page/%2e%2e/x.js',
  ])('the scheme serves files of the page only: not %s', async (address) => {
    const { servePage } = await import('../../../electron/scheme.ts');
    const page = newFolder();
    put(page, { 'index.html': 'page', 'secret.js': 'x' });
    const session = new FakeSession();
    servePage(session as never, page);
    expect((await session.fetch(address)).status).toBe(404);
    expect((await session.fetch(PAGE, 'POST')).status).toBe(404);
  });

  test('and is not let past the policy', () => {
    expect(electron.protocol.schemes).toHaveLength(1);
    const privileges: Readonly<Record<string, boolean>> = electron.protocol.schemes[0]?.privileges ?? {};
    for (const name of ['bypassCSP', 'allowServiceWorkers', 'corsEnabled', 'allowExtensions'])
      expect(privileges[name], name).toBeUndefined();
  });
});

describe('19. Check which fuses you can change', () => {
  test('the packed program runs no other program’s code', () => {
    const { electronFuses, asar } = parse(readText('electron/builder.yml')) as { electronFuses: Record<string, boolean>; asar: boolean };
    expect(asar).toBe(true);
    expect(electronFuses).toEqual({
      runAsNode: false,
      enableCookieEncryption: true,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      enableEmbeddedAsarIntegrityValidation: true,
      onlyLoadAppFromAsar: true,
      grantFileProtocolExtraPrivileges: false,
    });
  });
});

describe('20. Do not expose Electron APIs to untrusted web content', () => {
  test('the page is given named functions only', () => {
    expect(readText('electron/preload.ts').match(/exposeInMainWorld/g)).toHaveLength(1);
    expect(saying(/contextBridge\./)).toEqual(['electron/preload.ts']);
    expect(saying(/ipcRenderer\./)).toEqual(['electron/preload.ts']);
  });
});

describe('what is packed', () => {
  const packed = parse(readText('electron/builder.yml')) as {
    readonly files: readonly string[];
    readonly extraResources: readonly { readonly from: string }[];
    readonly mac: { readonly fileAssociations: readonly object[] };
    readonly nsis: { readonly include: string };
  };
  const { files, extraResources } = packed;

  test('is what the shell reads, and every single file of it exists', () => {
    const single = files.filter((file) => !/[*!]/.test(file) && !file.startsWith('dist/'));
    const root = path.dirname(path.dirname(path.dirname(import.meta.dirname)));
    expect(single.filter((file) => !existsSync(path.join(root, file)))).toEqual([]);
    const fonts = readText('electron/host/files/fonts.ts').match(/(source-sans|dejavu-fonts-ttf)\/[\w/.-]+\.ttf/g) ?? [];
    expect(fonts.length).toBeGreaterThan(4);
    expect(fonts.filter((font) => !files.includes(`node_modules/${font}`))).toEqual([]);
    expect(extraResources.map(({ from }) => from)).toEqual(['sample-procedures']);
  });

  test('does not make itself the first program for all Markdown', () => {
    expect(Object.keys(packed)).not.toContain('fileAssociations');
    expect(packed.mac.fileAssociations).toMatchObject([{ ext: 'md', rank: 'Alternate' }]);
    // On Windows the default program of an ending is the unnamed value of its key; here only the list beside it is added to.
    const registry = readText(packed.nsis.include).match(/WriteRegStr SHCTX "[^"]*\\\.md[^"]*" "[^"]*"/g);
    expect(registry).toEqual(['WriteRegStr SHCTX "Software\\Classes\\.md\\OpenWithProgids" "Handsclear.procedure"']);
  });

  test('begins where package.json says', () => {
    const { main } = JSON.parse(readText('package.json')) as { main: string };
    expect(main).toBe('dist/main.mjs');
    expect(files).toContain(main);
  });
});
