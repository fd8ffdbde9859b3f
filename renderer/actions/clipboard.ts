/**
 * Cut, copy, paste and select all as items of the menu, for the text and for any field that was typed in last. The keys themselves are
 * heard where somebody types; this is for the hand at the mouse, from which opening a menu took the caret away.
 */
import { focusText, lastField, textHand } from '../state/focus.ts';
import { say } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { Action } from './action.ts';
import { shownKeys } from './shown-keys.ts';

/** Gives the caret back to where it was. */
function goBack(): void {
  const field = lastField();
  if (field) field.focus();
  else focusText();
}

const somewhere = (): boolean => lastField() !== undefined || textHand() !== undefined;

/** Words beside the text, a finding for one, are marked on the page itself and would no longer be once the caret is back. */
function markedElsewhere(): boolean {
  const marked = getSelection();
  return marked !== null && !marked.isCollapsed && marked.anchorNode?.parentElement?.closest('.sheet-text') === null;
}

async function paste(): Promise<void> {
  const field = lastField();
  goBack();
  let text: string;
  try {
    text = await navigator.clipboard.readText();
  } catch {
    return say(words.pasteRefused(shownKeys('Mod+V')), true);
  }
  if (text === '') return say(words.nothingToPaste, true);
  // As typed: the field keeps its own undo, and whoever listens to it hears of it.
  if (field) document.execCommand('insertText', false, text);
  else textHand()?.put(text);
}

export const clipboard: readonly Action[] = [
  {
    name: 'cut',
    label: () => words.cut,
    keys: 'Mod+X',
    apart: true,
    heardThere: true,
    when: somewhere,
    run: () => {
      const field = lastField();
      goBack();
      if (field) document.execCommand('cut');
      // The browser cuts from fields of its own only.
      else if (document.execCommand('copy')) textHand()?.cut();
    },
  },
  {
    name: 'copy',
    label: () => words.copy,
    keys: 'Mod+C',
    heardThere: true,
    run: () => {
      if (!markedElsewhere()) goBack();
      document.execCommand('copy');
    },
  },
  { name: 'paste', label: () => words.paste, keys: 'Mod+V', heardThere: true, when: somewhere, run: paste },
  {
    name: 'select all',
    label: () => words.selectAll,
    keys: 'Mod+A',
    heardThere: true,
    when: somewhere,
    run: () => {
      const field = lastField();
      goBack();
      if (field) field.select();
      else textHand()?.markAll();
    },
  },
];
