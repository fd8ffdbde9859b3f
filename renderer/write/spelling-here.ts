/** The word at the caret, or the next one, that is in no dictionary and no register. Finds it; what to write instead is offered by its sheet. */
import { type Misspelt, misspelt } from '../spelling/spelling.ts';
import { openPanel, panel } from '../state/panel.ts';
import { lookAt, say, shown } from '../state/shown.ts';
import { change, documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';

export async function misspeltAt(caret: number): Promise<Misspelt | undefined> {
  const { file } = shown.get();
  const found = file === undefined ? undefined : await misspelt(file);
  return found?.find(({ start, end }) => start <= caret && caret <= end);
}

/** Asked again while its sheet is open it goes on to the next word. */
export async function spellHere(): Promise<void> {
  const { file, caret } = shown.get();
  if (file === undefined) return;
  const found = await misspelt(file);
  if (found === undefined) return say(words.noDictionary);
  const open = panel.get().open === 'spelling';
  const own = open ? undefined : found.find(({ start, end }) => start <= caret && caret <= end);
  const word = own ?? found.find(({ start }) => start >= caret) ?? found[0];
  if (word === undefined) return say(words.allSpelt);
  offerSpelling(file, word);
}

export function offerSpelling(file: string, word: Misspelt): void {
  lookAt(file, word.start, word.end);
  openPanel('spelling', { misspelt: word });
}

/** False: the text has something else there by now. */
export function writeInstead(file: string, { word, start, end }: Misspelt, near: string): boolean {
  if (documents.get(file)?.text.slice(start, end) !== word) {
    say(words.readAnew, true);
    return false;
  }
  change(`${word}: ${near}`, [{ path: file, edits: [{ start, end, text: near }] }]);
  say(words.done(`${word}: ${near}`, 1));
  return true;
}
