/** All actions by menu. */

import { isOwnFile } from '../state/files.ts';
import { openPanel, type PanelName } from '../state/panel.ts';
import { save } from '../state/saving.ts';
import { putSetting, setting } from '../state/settings.ts';
import { goTo, say, sayToDo, shown } from '../state/shown.ts';
import { lookFor, sought, toHit } from '../state/sought.ts';
import { redo, undo } from '../state/undoing.ts';
import { applyProposed, core, documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import type { InsertAsk } from '../worker/queries/queries.ts';
import { seekDocument } from '../write/list-keys.ts';
import { startTour } from '../write/tour.tsx';
import type { Action } from './action.ts';
import { caretActions } from './caret-actions.ts';
import { clipboard } from './clipboard.ts';
import { pageActions } from './page-actions.ts';
import { toMenus, toPart } from './parts-of-page.ts';
import { textSizes } from './text-sizes.ts';

const inProcedure = (): boolean => shown.get().file?.startsWith('procedures/') ?? false;
const inDocument = (): boolean => inProcedure() || (shown.get().file?.startsWith('guides/') ?? false);

const insertion = (what: InsertAsk['what'], label: string, keys?: string): Action => ({
  name: `insert ${what}`,
  label: () => label,
  ...(keys === undefined ? {} : { keys }),
  when: inProcedure,
  async run() {
    const { file, caret } = shown.get();
    if (file === undefined) return;
    const made = await core.ask('insert', { file, offset: caret, what });
    if (!made.ok) return say(made.reason, true);
    applyProposed(made.title, made.files);
    goTo(file, made.caret);
    if (made.notes.length > 0) sayToDo(made.notes.join(' '));
  },
});

const sheet = (name: PanelName, label: string, keys?: string, when = inProcedure): Action => ({
  name,
  label: () => `${label} …`,
  ...(keys === undefined ? {} : { keys }),
  when,
  run: () => openPanel(name),
});

/** `name` is what a shell with a menu of its own knows a menu by. */
export const menus: readonly { readonly name: string; readonly label: string; readonly actions: readonly Action[] }[] = [
  {
    name: 'file',
    label: words.file,
    actions: [
      sheet('libraries', words.otherLibrary, 'Mod+O', () => true),
      sheet('new', words.newProcedure, 'Mod+F8', () => shown.get().folder !== undefined),
      sheet('new guide', words.newGuide, undefined, () => shown.get().folder !== undefined),
      sheet('file', words.fileOfText, undefined, () => isOwnFile(shown.get().file)),
      { name: 'save', label: () => words.saveAll, keys: 'Mod+S', when: () => documents.unsaved().length > 0, run: save },
    ],
  },
  {
    name: 'edit',
    label: words.edit,
    actions: [
      {
        name: 'undo',
        label: () => `${words.undo}${note(documents.next.undo)}`,
        keys: 'Mod+Z',
        when: () => documents.next.undo !== undefined,
        run: undo,
      },
      {
        name: 'redo',
        label: () => `${words.redo}${note(documents.next.redo)}`,
        keys: 'Mod+Y',
        when: () => documents.next.redo !== undefined,
        run: redo,
      },
      ...clipboard,
      {
        name: 'find here',
        label: () => words.findHere,
        keys: 'Mod+F',
        apart: true,
        when: () => shown.get().file !== undefined,
        run: () => lookFor(sought.get().replacing),
      },
      {
        name: 'find next',
        label: () => words.findNext,
        keys: 'F3',
        when: () => sought.get().query !== '' && shown.get().file !== undefined,
        run: () => toHit('next'),
      },
      {
        name: 'find previous',
        label: () => words.findPrevious,
        keys: 'Shift+F3',
        when: () => sought.get().query !== '' && shown.get().file !== undefined,
        run: () => toHit('previous'),
      },
      {
        name: 'replace here',
        label: () => words.replaceHere,
        keys: 'Mod+H',
        when: () => shown.get().file !== undefined,
        run: () => lookFor(true),
      },
      { name: 'seek document', label: () => words.seekDocument, keys: 'Mod+F9', run: seekDocument },
      { name: 'find', label: () => `${words.find} …`, keys: 'Mod+Shift+L', run: () => openPanel('find') },
      {
        name: 'rename',
        apart: true,
        label: () => `${words.rename} …`,
        keys: 'Mod+Shift+R',
        when: () => shown.get().file !== undefined,
        run: () => openPanel('rename'),
      },
      sheet('front', words.frontMatter, 'Mod+Shift+F'),
      sheet('limits', words.limitsOfText, 'Mod+F6'),
    ],
  },
  {
    name: 'insert',
    label: words.insert,
    actions: [
      insertion('step', words.step, 'Mod+Enter'),
      sheet('branches', words.branchesForm, 'Mod+Shift+Enter'),
      sheet('measurement', words.measurement, 'Mod+Shift+M'),
      sheet('figure', words.figure, 'Mod+Shift+G'),
      insertion('make safe', words.makeSafe),
      insertion('restore', words.restore),
      ...(['danger', 'warning', 'caution', 'notice'] as const).map(
        (word): Action => ({
          name: `insert ${word}`,
          label: () => `${words[word]} …`,
          when: inProcedure,
          run: () => openPanel('notice', { word }),
        }),
      ),
      sheet('remark', words.remark, 'Mod+Shift+K', inDocument),
    ],
  },
  { name: 'caret', label: words.atCaret, actions: caretActions },
  { name: 'pages', label: words.pagesToRead, actions: pageActions },
  {
    name: 'views',
    label: words.views,
    actions: [
      ...(['write', 'review', 'print'] as const).map(
        (view, index): Action => ({
          name: view,
          label: () => words[view],
          keys: `Mod+${index + 1}`,
          run: () => shown.set({ view }),
        }),
      ),
      { name: 'first minute', label: () => words.tourTitle, run: startTour },
      {
        name: 'spelling',
        label: () => (setting('spell-check') === 'on' ? words.spellingOff : words.spellingOn),
        run: async () => {
          await putSetting('spell-check', setting('spell-check') === 'on' ? 'off' : 'on');
          shown.set({ revision: shown.get().revision + 1 });
        },
      },
      ...textSizes,
      { name: 'next part', label: () => words.nextPart, keys: 'F6', apart: true, run: () => toPart('next') },
      { name: 'previous part', label: () => words.previousPart, keys: 'Shift+F6', run: () => toPart('previous') },
      { name: 'menus', label: () => words.toMenus, keys: 'F10', run: toMenus },
      sheet('keys', words.shortcuts, 'Mod+K', () => true),
    ],
  },
];

function note(title: string | undefined): string {
  return title === undefined ? '' : `: ${title}`;
}

/** The same as plain data, for a shell that has a menu of its own. */
export const pageMenus = () =>
  menus.map(({ name: menu, label, actions }) => ({
    name: menu,
    label,
    actions: actions.map(({ name, label: own, keys }) => ({ name, label: own(), ...(keys === undefined ? {} : { keys }) })),
  }));
