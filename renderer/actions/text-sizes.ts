/** How large the text of Write is: the keys are those of the pages in Print, and leave alone those by which a browser enlarges everything. */
import { say, shown } from '../state/shown.ts';
import { nextSize, setTextSize, textSize, USUAL } from '../state/text-size.ts';
import { words } from '../words/words.ts';
import type { Action } from './action.ts';

const inWrite = (): boolean => shown.get().view === 'write';

function take(percent: number | undefined): void {
  if (percent === undefined) return;
  setTextSize(percent);
  say(words.textSizeNow(percent));
}

export const textSizes: readonly Action[] = [
  {
    name: 'larger text',
    label: () => words.largerText,
    keys: 'Mod+.',
    view: 'write',
    apart: true,
    when: () => inWrite() && nextSize(true) !== undefined,
    run: () => take(nextSize(true)),
  },
  {
    name: 'smaller text',
    label: () => words.smallerText,
    keys: 'Mod+,',
    view: 'write',
    when: () => inWrite() && nextSize(false) !== undefined,
    run: () => take(nextSize(false)),
  },
  { name: 'usual text', label: () => words.usualText, when: () => inWrite() && textSize.get().percent !== USUAL, run: () => take(USUAL) },
];
