/** The windows that are open: makes them, knows which page in them is which to the host, and passes the host's events on to them. */
import path from 'node:path';
import { app, BrowserWindow, screen } from 'electron';
import { CHANNELS } from './channels.ts';
import type { HostEvent } from './host/contract/index.ts';
import type { Kept } from './host/kept/index.ts';
import type { Caller, Opening, Service } from './host/service/index.ts';
import { PAGE } from './scheme.ts';
import { FIRST, fitted, LEAST, type WindowState } from './window-state.ts';

/** What every page of this program is confined to. */
export const CONFINED = {
  contextIsolation: true,
  sandbox: true,
  nodeIntegration: false,
  nodeIntegrationInWorker: false,
  nodeIntegrationInSubFrames: false,
  webSecurity: true,
  allowRunningInsecureContent: false,
  experimentalFeatures: false,
  webviewTag: false,
  navigateOnDragDrop: false,
  spellcheck: false,
} as const;

interface Open {
  readonly window: BrowserWindow;
  opening: Opening | undefined;
  /** Counts the pages that this window has shown: each is another to the host, so that what one left unsaved is offered to the next. */
  page: number;
}

export interface WindowsOptions {
  readonly service: () => Pick<Service, 'arrived' | 'left'> | undefined;
  readonly state: Kept<WindowState>;
  readonly preload: string;
  /** Told of each new window, to give it what else a window needs. */
  readonly made: (window: BrowserWindow) => void;
}

export class Windows {
  private readonly open = new Map<number, Open>();
  private readonly options: WindowsOptions;

  constructor(options: WindowsOptions) {
    this.options = options;
  }

  async show(opening: Opening | undefined): Promise<void> {
    const screens = screen.getAllDisplays().map(({ workArea }) => workArea);
    const state = fitted(await this.options.state.read().catch(() => FIRST), screens, this.open.size);
    const window = new BrowserWindow({
      width: state.width,
      height: state.height,
      ...state.place,
      minWidth: LEAST.width,
      minHeight: LEAST.height,
      show: false,
      title: 'Handsclear',
      // Of paper, so that nothing flashes before the page is there.
      backgroundColor: '#f1eee6',
      webPreferences: { ...CONFINED, preload: this.options.preload, devTools: !app.isPackaged },
    });
    const { webContents } = window;
    const { id } = webContents;
    const own: Open = { window, opening, page: 0 };
    this.open.set(id, own);
    const { arrived, left } = this.bound();
    webContents.on('did-start-navigation', (event) => {
      if (!event.isMainFrame || event.isSameDocument) return;
      left(nameOf(id, own.page));
      own.page += 1;
      arrived(nameOf(id, own.page));
    });
    webContents.on('render-process-gone', () => left(nameOf(id, own.page)));
    window.once('ready-to-show', () => {
      if (state.maximized) window.maximize();
      window.show();
    });
    window.on('close', () => this.remember(window));
    window.on('closed', () => {
      left(nameOf(id, own.page));
      this.open.delete(id);
    });
    this.options.made(window);
    // A page that cannot be loaded shows so; there is nobody to tell it to.
    await window.loadURL(PAGE).catch(() => undefined);
  }

  /** Undefined: no window of ours. */
  callerOf(contents: number): Caller | undefined {
    const own = this.open.get(contents);
    return own === undefined ? undefined : nameOf(contents, own.page);
  }

  openingOf(caller: Caller): Opening | undefined {
    return this.of(caller)?.opening;
  }

  windowOf(caller: Caller): BrowserWindow | undefined {
    return this.of(caller)?.window;
  }

  /** The page of a window went to another library: that is what a new page in it opens. */
  went(contents: number, folder: string): void {
    const own = this.open.get(contents);
    if (own && own.opening?.folder !== folder) own.opening = { folder };
  }

  tell(event: HostEvent): void {
    for (const { window } of this.open.values()) send(window, event);
  }

  /** To the window that is in front; none: to nobody. */
  tellFocused(event: HostEvent): void {
    const window = BrowserWindow.getFocusedWindow();
    if (window !== null && this.open.has(window.webContents.id)) send(window, event);
  }

  /** A second start, or a file that was double-clicked: the window that has the library comes to the front, else a new one opens. */
  async bring(opening: Opening | undefined): Promise<void> {
    const all = [...this.open.values()];
    const own = opening === undefined ? all.at(-1) : all.find((one) => one.opening?.folder === opening.folder);
    if (own === undefined) return this.show(opening);
    if (own.window.isMinimized()) own.window.restore();
    own.window.show();
    own.window.focus();
    if (opening?.show !== undefined) send(own.window, { event: 'show', path: opening.show });
  }

  get count(): number {
    return this.open.size;
  }

  private of(caller: Caller): Open | undefined {
    return [...this.open].find(([id, { page }]) => nameOf(id, page) === caller)?.[1];
  }

  private bound(): Pick<Service, 'arrived' | 'left'> {
    return { arrived: (caller) => this.options.service()?.arrived(caller), left: (caller) => this.options.service()?.left(caller) };
  }

  private remember(window: BrowserWindow): void {
    const { x, y, width, height } = window.getNormalBounds();
    const state = { width, height, place: { x, y }, maximized: window.isMaximized() };
    void this.options.state.change(() => state).catch(() => undefined);
  }
}

const nameOf = (contents: number, page: number): Caller => `window-${contents}-${page}`;

function send(window: BrowserWindow, event: HostEvent): void {
  if (!window.isDestroyed() && !window.webContents.isDestroyed()) window.webContents.send(CHANNELS.event, event);
}

/** Beside the bundle of the shell, where set-up puts both. */
export const preloadIn = (folder: string): string => path.join(folder, 'preload.cjs');
