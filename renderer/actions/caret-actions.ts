/** The actions on what stands at the caret: findings, readings, names, words. What each does, the margin's buttons do too. */
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { acceptHere, mendHere, outrightHere, settleAll, settleHere, toFinding, toVariant } from '../write/caret-deeds.ts';
import { backFromThere, showHere, toDefinition } from '../write/looking-up.ts';
import { spellHere } from '../write/spelling-here.ts';
import type { Action } from './action.ts';

/** Where nothing stands there, that is said: only what no text could have is not offered. */
const inText = (): boolean => shown.get().view === 'write' && shown.get().file !== undefined;

const here = (name: string, label: string, keys: string, run: Action['run'], apart?: true): Action => ({
  name,
  label: () => label,
  keys,
  view: 'write',
  when: inText,
  run,
  ...(apart ? { apart } : {}),
});

export const caretActions: readonly Action[] = [
  here('next finding', words.nextFinding, 'Alt+PageDown', () => toFinding('next')),
  here('previous finding', words.previousFinding, 'Alt+PageUp', () => toFinding('previous')),
  here('mend', words.mendHere, 'F4', mendHere),
  here('outright', `${words.sayOutright} …`, 'Shift+F4', outrightHere),
  here('accept', words.acceptReading, 'F8', acceptHere, true),
  here('settle', `${words.settleHere} …`, 'Shift+F8', settleHere),
  here('settle all', `${words.settleAll} …`, 'Mod+Shift+F8', settleAll),
  here('definition', words.toDefinition, 'F2', toDefinition, true),
  here('back', words.backFromThere, 'F9', backFromThere),
  here('show', words.showHere, 'Shift+F2', showHere),
  here('spell', `${words.spellHere} …`, 'F7', spellHere),
  here('next variant', words.nextVariant, 'Mod+F2', () => toVariant('next'), true),
  here('previous variant', words.previousVariant, 'Mod+Shift+F2', () => toVariant('previous')),
];
