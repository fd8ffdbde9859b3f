/**
 * A stand-in for `electron`, as much of it as the shell uses: emitters that remember what was asked of them. Used by
 * `vi.mock('electron', ...)`; what a real Electron would do with it is not pretended.
 */
import { EventEmitter } from 'node:events';

/** An event that can be held up. */
export interface Held {
  defaultPrevented: boolean;
  preventDefault(): void;
  [key: string]: unknown;
}

export function held(more: Readonly<Record<string, unknown>> = {}): Held {
  return {
    ...more,
    defaultPrevented: false,
    preventDefault() {
      this.defaultPrevented = true;
    },
  };
}

type Handler = (...words: never[]) => unknown;

export class FakeSession {
  readonly handlers = new Map<string, (request: { method: string; url: string }) => Promise<Response>>();
  readonly events = new EventEmitter();
  permissionRequest: Handler | undefined;
  permissionCheck: Handler | undefined;
  device: Handler | undefined;
  beforeRequest: ((details: { url: string }, answer: (response: { cancel: boolean }) => void) => void) | undefined;
  spellChecker = true;
  readonly protocol = { handle: (scheme: string, handler: never) => this.handlers.set(scheme, handler) };
  readonly webRequest = {
    onBeforeRequest: (listener: never) => {
      this.beforeRequest = listener;
    },
  };
  setPermissionRequestHandler(handler: Handler): void {
    this.permissionRequest = handler;
  }
  setPermissionCheckHandler(handler: Handler): void {
    this.permissionCheck = handler;
  }
  setDevicePermissionHandler(handler: Handler): void {
    this.device = handler;
  }
  setSpellCheckerEnabled(on: boolean): void {
    this.spellChecker = on;
  }
  on(name: string, listener: (...words: unknown[]) => void): void {
    this.events.on(name, listener);
  }
  fetch(url: string, method = 'GET'): Promise<Response> {
    const handler = this.handlers.get(new URL(url).protocol.slice(0, -1));
    if (!handler) throw new Error(`Nobody serves ${url}`);
    return handler({ method, url });
  }
  async reaches(url: string): Promise<boolean> {
    return new Promise((resolve) => this.beforeRequest?.({ url }, ({ cancel }) => resolve(!cancel)));
  }
}

let contentsMade = 0;

export class FakeContents extends EventEmitter {
  readonly id: number;
  readonly sent: unknown[] = [];
  readonly asked: string[] = [];
  openHandler: ((details: { url: string }) => { action: string }) | undefined;
  url = '';
  readonly mainFrame: { readonly url: string; readonly parent: null };
  constructor() {
    super();
    contentsMade += 1;
    this.id = contentsMade;
    const own = this;
    this.mainFrame = {
      get url() {
        return own.url;
      },
      parent: null,
    };
  }
  setWindowOpenHandler(handler: never): void {
    this.openHandler = handler;
  }
  getURL(): string {
    return this.url;
  }
  send(channel: string, event: unknown): void {
    this.sent.push([channel, event]);
  }
  isDestroyed(): boolean {
    return false;
  }
  print(options: unknown): void {
    this.asked.push(`print ${JSON.stringify(options)}`);
  }
  reload(): void {
    this.asked.push('reload');
  }
  forcefullyCrashRenderer(): void {
    this.asked.push('crash');
  }
}

export class FakeWindow extends EventEmitter {
  static all: FakeWindow[] = [];
  static focused: FakeWindow | null = null;
  static getFocusedWindow(): FakeWindow | null {
    return FakeWindow.focused;
  }
  readonly options: { readonly webPreferences: Readonly<Record<string, unknown>>; readonly [key: string]: unknown };
  readonly webContents = new FakeContents();
  readonly asked: string[] = [];
  destroyed = false;
  constructor(options: never) {
    super();
    this.options = options;
    FakeWindow.all.push(this);
    electron.app.emit('web-contents-created', {}, this.webContents);
  }
  async loadURL(url: string): Promise<void> {
    this.webContents.emit('did-start-navigation', { isMainFrame: true, isSameDocument: false, url });
    this.webContents.url = url;
    this.asked.push(`load ${url}`);
    this.emit('ready-to-show');
  }
  note(what: string): void {
    this.asked.push(what);
  }
  show = (): void => this.note('show');
  focus = (): void => this.note('focus');
  restore = (): void => this.note('restore');
  maximize = (): void => this.note('maximize');
  close = (): void => this.note('close');
  removeMenu = (): void => this.note('remove menu');
  isMinimized = (): boolean => this.asked.includes('minimized');
  isMaximized = (): boolean => false;
  isDestroyed = (): boolean => this.destroyed;
  getNormalBounds = () => ({ x: 10, y: 20, width: 1000, height: 700 });
  destroy(): void {
    this.destroyed = true;
    this.emit('closed');
  }
}

class FakeApp extends EventEmitter {
  readonly asked: string[] = [];
  readonly paths = new Map<string, string>();
  isPackaged = false;
  /** Another is running already: false. */
  first = true;
  readonly ready = Promise.resolve();
  whenReady = (): Promise<void> => this.ready;
  requestSingleInstanceLock = (): boolean => this.first;
  enableSandbox = (): void => void this.asked.push('sandbox');
  readonly commandLine = { appendSwitch: (...words: readonly string[]): void => void this.asked.push(`switch ${words.join('=')}`) };
  quit = (): void => void this.asked.push('quit');
  addRecentDocument = (place: string): void => void this.asked.push(`recent ${place}`);
  setPath = (name: string, place: string): void => void this.paths.set(name, place);
  getPath = (name: string): string => this.paths.get(name) ?? '';
  getLocale = (): string => 'en-GB';
  getVersion = (): string => '0.0.0';
}

const partitions = new Map<string, FakeSession>();

export const electron = {
  app: new FakeApp(),
  BrowserWindow: FakeWindow,
  Menu: {
    shown: undefined as unknown,
    buildFromTemplate: (template: unknown) => template,
    setApplicationMenu(menu: unknown) {
      this.shown = menu;
    },
  },
  dialog: {
    /** What the user will answer, and what was asked. */
    answer: 0,
    folder: undefined as string | undefined,
    asked: [] as { message?: string; detail?: string; buttons?: string[] }[],
    showMessageBoxSync(...words: unknown[]) {
      this.asked.push(words.at(-1) as never);
      return this.answer;
    },
    async showMessageBox(...words: unknown[]) {
      this.asked.push(words.at(-1) as never);
      return { response: this.answer };
    },
    async showOpenDialog() {
      return this.folder === undefined ? { canceled: true, filePaths: [] } : { canceled: false, filePaths: [this.folder] };
    },
  },
  ipcMain: {
    handlers: new Map<string, (event: unknown, ...words: unknown[]) => Promise<unknown>>(),
    handle(channel: string, handler: never) {
      this.handlers.set(channel, handler);
    },
  },
  protocol: {
    schemes: [] as { scheme: string; privileges: Readonly<Record<string, boolean>> }[],
    registerSchemesAsPrivileged(schemes: never[]) {
      this.schemes.push(...schemes);
    },
  },
  screen: { getAllDisplays: () => [{ workArea: { x: 0, y: 0, width: 1920, height: 1080 } }] },
  session: {
    defaultSession: new FakeSession(),
    fromPartition(name: string): FakeSession {
      const own = partitions.get(name) ?? new FakeSession();
      partitions.set(name, own);
      return own;
    },
  },
  shell: {
    asked: [] as string[],
    async openPath(file: string) {
      this.asked.push(`open ${file}`);
      return '';
    },
    showItemInFolder(file: string) {
      this.asked.push(`show ${file}`);
    },
    async openExternal(address: string) {
      this.asked.push(`external ${address}`);
    },
  },
  contextBridge: {
    exposed: new Map<string, unknown>(),
    exposeInMainWorld(name: string, value: unknown) {
      this.exposed.set(name, value);
    },
  },
  ipcRenderer: Object.assign(new EventEmitter(), {
    invoked: [] as unknown[][],
    async invoke(...words: unknown[]) {
      electron.ipcRenderer.invoked.push(words);
      return { ok: true, value: 'answer' };
    },
  }),
};
