/** The main menu: the page's own menus in its language, and around them what every desktop program has. Makes the list; shows nothing. */
import type { MenuItemConstructorOptions } from 'electron';
import type { PageMenu } from './host/contract/index.ts';
import type { RecentLibrary } from './host/kept/index.ts';
import type { ShellWords } from './words.ts';

type Item = MenuItemConstructorOptions;

export interface MenuParts {
  readonly words: ShellWords;
  readonly pages: readonly PageMenu[];
  readonly recent: readonly RecentLibrary[];
  readonly mac: boolean;
  readonly packaged: boolean;
  readonly run: {
    readonly action: (name: string) => void;
    readonly newWindow: () => void;
    readonly openLibrary: () => void;
    readonly openRecent: (folder: string) => void;
    readonly about: () => void;
  };
}

const LINE: Item = { type: 'separator' };
/** What the page names too and the shell does better, because a page may not read what was copied elsewhere. Selecting is left to the page. */
const ROLES: Readonly<Record<string, 'cut' | 'copy' | 'paste'>> = { cut: 'cut', copy: 'copy', paste: 'paste' };
/** The places of the shell's own items; what the page names besides stands between Edit and View. */
const KNOWN: readonly string[] = ['file', 'edit', 'views'];

export function menuOf(parts: MenuParts): Item[] {
  const { words, pages, mac } = parts;
  const named = (name: string): PageMenu | undefined => pages.find((one) => one.name === name);
  const fromPage = (menu: PageMenu | undefined): Item[] => (menu?.actions ?? []).map((action) => pageItem(action, parts));
  const others = pages.filter(({ name }) => !KNOWN.includes(name));
  return [
    ...(mac ? [macMenu(parts)] : []),
    { label: named('file')?.label ?? words.file, submenu: joined(fromPage(named('file')), fileItems(parts)) },
    { label: named('edit')?.label ?? words.edit, submenu: joined(fromPage(named('edit')), editItems(parts, named('edit'))) },
    ...others.map((menu) => ({ label: menu.label, submenu: fromPage(menu) })),
    { label: named('views')?.label ?? words.view, submenu: joined(fromPage(named('views')), viewItems(parts)) },
    { label: words.window, role: 'window', submenu: [{ label: words.minimize, role: 'minimize' }] },
    { label: words.help, role: 'help', submenu: [{ label: words.about, click: parts.run.about }] },
  ];
}

function pageItem({ name, label, keys }: PageMenu['actions'][number], { run, mac }: MenuParts): Item {
  const role = ROLES[name];
  if (role !== undefined) return { label, role };
  const click = (): void => run.action(name);
  if (keys === undefined) return { label, click };
  // The page hears its keys itself, before the text does; here they are only shown. A Mac gives them to the page first anyway.
  return { label, click, accelerator: keys.replace(/^Mod\b/, mac ? 'Cmd' : 'Ctrl'), registerAccelerator: false };
}

function joined(first: readonly Item[], second: readonly Item[]): Item[] {
  return first.length === 0 || second.length === 0 ? [...first, ...second] : [...first, LINE, ...second];
}

function fileItems({ words, recent, mac, run }: MenuParts): Item[] {
  const libraries = recent.map(({ folder, name }) => ({ label: `${name}  (${folder})`, click: () => run.openRecent(folder) }));
  return [
    { label: words.newWindow, accelerator: 'CmdOrCtrl+Alt+N', click: run.newWindow },
    { label: words.openLibrary, accelerator: 'CmdOrCtrl+Shift+O', click: run.openLibrary },
    { label: words.openRecent, submenu: libraries.length > 0 ? libraries : [{ label: words.noRecent, enabled: false }] },
    LINE,
    { label: words.closeWindow, role: 'close' },
    ...(mac ? [] : [{ label: words.quit, role: 'quit' } as const]),
  ];
}

/** Only until the page has named its own. */
function editItems({ words }: MenuParts, page: PageMenu | undefined): Item[] {
  if (page?.actions.some(({ name }) => name === 'paste')) return [];
  return [
    { label: words.cut, role: 'cut' },
    { label: words.copy, role: 'copy' },
    { label: words.paste, role: 'paste' },
    { label: words.selectAll, role: 'selectAll' },
  ];
}

function viewItems({ words, packaged }: MenuParts): Item[] {
  return [
    { label: words.larger, role: 'zoomIn' },
    { label: words.smaller, role: 'zoomOut' },
    { label: words.usualSize, role: 'resetZoom' },
    LINE,
    { label: words.fullScreen, role: 'togglefullscreen' },
    ...(packaged ? [] : [{ label: words.inspect, role: 'toggleDevTools' } as const]),
  ];
}

function macMenu({ words, run }: MenuParts): Item {
  return {
    label: 'Handsclear',
    submenu: [
      { label: words.about, click: run.about },
      LINE,
      { role: 'services' },
      LINE,
      { role: 'hide' },
      { role: 'hideOthers' },
      { role: 'unhide' },
      LINE,
      { label: words.quit, role: 'quit' },
    ],
  };
}
