/** The desktop shell: a list of setups in the order in which Electron wants them. What each does stands in its own file. */
import path from 'node:path';
import { app, dialog, Menu, session } from 'electron';
import { askBeforeClosing, noteQuitting } from './closing.ts';
import { guardAllPages, guardSession } from './guard.ts';
import type { PageMenu } from './host/contract/index.ts';
import { Kept } from './host/kept/index.ts';
import { nodeWriteDisk } from './host/saving/index.ts';
import { type Opening, Service } from './host/service/index.ts';
import { dataFolder } from './host/start.ts';
import { openGate } from './ipc.ts';
import { menuOf } from './menu.ts';
import { openingAt, openingOf, userWords } from './opening.ts';
import { setPageEngine } from './page-engine.ts';
import { writableSample } from './sample.ts';
import { registerScheme, servePage } from './scheme.ts';
import { soundState } from './window-state.ts';
import { preloadIn, Windows } from './windows.ts';
import { shellWords } from './words.ts';
import { showWritten } from './written.ts';

/** The folder `dist`, or the same inside the packed program. */
const built = import.meta.dirname;
const data = dataFolder();
let service: Service | undefined;
let pageMenus: readonly PageMenu[] = [];
let words = shellWords('', '');
/** Files that the system asked to open before the windows could. */
const early: string[] = [];

const windows = new Windows({
  service: () => service,
  state: new Kept(path.join(data, 'window.json'), nodeWriteDisk, soundState),
  preload: preloadIn(built),
  made: (window) => askBeforeClosing(window, () => words),
});

app.enableSandbox();
setPageEngine(app);
registerScheme();
guardAllPages();
noteQuitting();
// What the browser part keeps is not mixed with what the host keeps.
app.setPath('userData', path.join(data, 'shell'));

if (app.requestSingleInstanceLock()) {
  app.on('second-instance', (_, argv, from) => void openingOf(argv.slice(1), from).then((opening) => windows.bring(opening)));
  app.on('open-file', (event, file) => {
    event.preventDefault();
    if (service === undefined) early.push(file);
    else void openingAt(file).then((opening) => windows.bring(opening));
  });
  app.on('window-all-closed', () => {
    if (process.platform !== 'darwin') app.quit();
  });
  app.on('activate', () => {
    if (windows.count === 0 && service !== undefined) void windows.show(undefined);
  });
  app.on('will-quit', endService);
  void app.whenReady().then(begin);
} else app.quit();

async function begin(): Promise<void> {
  const sample = app.isPackaged
    ? await writableSample(path.join(process.resourcesPath, 'sample-procedures'), data)
    : path.join(built, '..', 'sample-procedures');
  const host = new Service({
    data,
    sample,
    home: app.getPath('home'),
    openFor: (caller) => windows.openingOf(caller),
    tell: (event) => windows.tell(event),
    shell: {
      choose: (caller, title) => chooseFolder(title, caller),
      show: (_, file, how) => showWritten(file, how),
      menu: (_, menus) => {
        pageMenus = menus;
        void showMenu();
      },
    },
  });
  service = host;
  guardSession(session.defaultSession);
  servePage(session.defaultSession, path.join(built, 'renderer'));
  openGate(host, (contents) => windows.callerOf(contents), answered);
  await showMenu();
  const asked = [...early.splice(0), ...userWords(process.argv, app.isPackaged)];
  await windows.show(await openingOf(asked, process.cwd()));
}

/** What the shell itself learns from what a page was answered. */
function answered(contents: number, method: string, value: unknown): void {
  if (method === 'library.open') {
    const { folder } = value as { readonly folder: string };
    windows.went(contents, folder);
    app.addRecentDocument(folder);
  }
  if (method === 'library.open' || method === 'libraries.forget' || method === 'settings.write') void showMenu();
}

async function showMenu(): Promise<void> {
  if (service === undefined) return;
  const { language } = await service.settings();
  words = shellWords(language, app.getLocale());
  const recent = (await service.recent.list()).filter(({ there }) => there);
  const run = {
    action: (name: string) => windows.tellFocused({ event: 'action', name }),
    newWindow: () => void windows.show(undefined),
    openLibrary: () => void openChosen(),
    openRecent: (folder: string) => void windows.bring({ folder }),
    about: () => void dialog.showMessageBox({ message: `Handsclear ${app.getVersion()}`, detail: words.cautions }),
  };
  const mac = process.platform === 'darwin';
  Menu.setApplicationMenu(Menu.buildFromTemplate(menuOf({ words, pages: pageMenus, recent, mac, packaged: app.isPackaged, run })));
}

async function chooseFolder(title: string, caller?: string): Promise<string | undefined> {
  const window = caller === undefined ? undefined : windows.windowOf(caller);
  const options = { title, properties: ['openDirectory', 'createDirectory'] as ('openDirectory' | 'createDirectory')[] };
  const { canceled, filePaths } =
    window === undefined ? await dialog.showOpenDialog(options) : await dialog.showOpenDialog(window, options);
  return canceled ? undefined : filePaths[0];
}

async function openChosen(): Promise<void> {
  const folder = await chooseFolder(words.open);
  if (folder === undefined) return;
  const opening: Opening | undefined = await openingAt(folder);
  if (opening !== undefined) return windows.bring(opening);
  await dialog.showMessageBox({ type: 'info', message: words.notLibrary, detail: words.notLibraryWhy(folder) });
}

let ended = false;
/** What was asked to be written is written before the program ends. */
function endService(event: Electron.Event): void {
  if (ended || service === undefined) return;
  event.preventDefault();
  ended = true;
  void service.close().finally(() => app.quit());
}
