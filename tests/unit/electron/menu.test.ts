import { describe, expect, test, vi } from 'vitest';
import { type MenuParts, menuOf } from '../../../electron/menu.ts';
import { shellWords } from '../../../electron/words.ts';

type MenuItemConstructorOptions = ReturnType<typeof menuOf>[number];

const run = { action: vi.fn(), newWindow: vi.fn(), openLibrary: vi.fn(), openRecent: vi.fn(), about: vi.fn() };
const parts: MenuParts = { words: shellWords('en', ''), pages: [], recent: [], mac: false, packaged: true, run };
const pages = [
  { name: 'file', label: 'File', actions: [{ name: 'save', label: 'Save all', keys: 'Mod+S' }] },
  { name: 'edit', label: 'Edit', actions: [{ name: 'redo', label: 'Redo', keys: 'Mod+Shift+Z' }] },
  { name: 'insert', label: 'Insert', actions: [{ name: 'insert step', label: 'Step' }] },
  { name: 'views', label: 'Views', actions: [{ name: 'write', label: 'Write', keys: 'Mod+1' }] },
];

/** One line a menu: its items, with their keys, lines as "-". */
function drawn(items: readonly MenuItemConstructorOptions[]): readonly string[] {
  const one = ({ label, role, type, accelerator }: MenuItemConstructorOptions): string =>
    type === 'separator' ? '-' : `${label ?? role}${accelerator === undefined ? '' : ` ${String(accelerator)}`}`;
  return items.map(({ label, submenu }) => `${label}: ${(submenu as MenuItemConstructorOptions[]).map(one).join(', ')}`);
}

describe('the main menu', () => {
  test('holds the items of the page and those of every desktop program', () => {
    expect(drawn(menuOf({ ...parts, pages }))).toEqual([
      'File: Save all Ctrl+S, -, New window CmdOrCtrl+Alt+N, Open library in a new window … CmdOrCtrl+Shift+O, Open recent, -, Close window, Quit Handsclear',
      'Edit: Redo Ctrl+Shift+Z, -, Cut, Copy, Paste, Select all',
      'Insert: Step',
      'Views: Write Ctrl+1, -, Larger, Smaller, Usual size, -, Full screen',
      'Window: Minimize',
      'Help: About Handsclear',
    ]);
  });

  test('cuts, copies and pastes as the shell does where the page names it, in the words of the page and only once', () => {
    const actions = ['cut', 'copy', 'paste', 'select all'].map((name) => ({ name, label: `to ${name}`, keys: 'Mod+X' }));
    const edit = menuOf({ ...parts, pages: [{ name: 'edit', label: 'Edit', actions }] }).find(({ label }) => label === 'Edit');
    const items = edit?.submenu as MenuItemConstructorOptions[];
    expect(items.map(({ label, role }) => `${label}: ${role}`)).toEqual([
      'to cut: cut',
      'to copy: copy',
      'to paste: paste',
      'to select all: undefined',
    ]);
    const { click } = items.at(-1) ?? {};
    (click as unknown as () => void)();
    expect(run.action).toHaveBeenCalledWith('select all');
  });

  test('is whole before the page has said anything', () => {
    expect(drawn(menuOf(parts)).map((line) => line.split(':')[0])).toEqual(['File', 'Edit', 'View', 'Window', 'Help']);
  });

  test('has a menu of the program itself on a Mac, and quits there', () => {
    const [first, file] = drawn(menuOf({ ...parts, pages, mac: true }));
    expect(first).toMatch(/^Handsclear: About Handsclear.*Quit Handsclear$/);
    expect(file).toContain('Save all Cmd+S');
    expect(file).not.toContain('Quit');
  });

  test('runs what is chosen', () => {
    const items = menuOf({ ...parts, pages, recent: [{ folder: 'somewhere', name: 'Fans' }] });
    const all = items.flatMap(({ submenu }) => submenu as MenuItemConstructorOptions[]);
    const choose = (label: string, list = all): void => {
      const { click } = list.find((one) => one.label === label) ?? {};
      (click as unknown as () => void)();
    };
    choose('Step');
    expect(run.action).toHaveBeenCalledWith('insert step');
    choose('Fans  (somewhere)', all.find(({ label }) => label === 'Open recent')?.submenu as MenuItemConstructorOptions[]);
    expect(run.openRecent).toHaveBeenCalledWith('somewhere');
  });

  test("shows the page's keys and leaves hearing them to the page, so that nothing happens twice", () => {
    const all = menuOf({ ...parts, pages }).flatMap(({ submenu }) => submenu as MenuItemConstructorOptions[]);
    const fromPage = all.filter(({ label }) => ['Save all', 'Redo', 'Write'].includes(label ?? ''));
    expect(fromPage.map(({ registerAccelerator }) => registerAccelerator)).toEqual([false, false, false]);
  });

  test('has the inspector only while it is developed', () => {
    expect(drawn(menuOf(parts)).join()).not.toContain('Inspect');
    expect(drawn(menuOf({ ...parts, packaged: false })).join()).toContain('Inspect the page');
  });
});

test.each([
  ['de', 'en-US', 'Datei'],
  ['', 'de-AT', 'Datei'],
  ['', 'fr', 'File'],
  ['en', 'de', 'File'],
])('the words in "%s" on a system in %s', (asked, system, file) => expect(shellWords(asked, system).file).toBe(file));
