/** Undo and redo of all texts, each shown where it was done or, where that is not to be seen, told. What they do to the texts is the journal's. */
import { words } from '../words/words.ts';
import type { Turned } from './documents.ts';
import { bringBack, tellUnused, unusedFigures } from './figures.ts';
import { nameOf } from './names.ts';
import { lookAt, say, shown } from './shown.ts';
import { documents, spread } from './workspace.ts';

export function undo(): void {
  turn(() => documents.undo(), words.undone);
}

export function redo(): void {
  turn(() => documents.redo(), words.redone);
}

/** Texts that nobody writes by hand are on no sheet. */
const onSheet = (path: string): boolean => !path.startsWith('review/');

function turn(way: () => Turned | undefined, told: (title: string, where: string) => string): void {
  // Undo takes no file away; of a picture that nothing shows any more it is said that it stays.
  const before = unusedFigures();
  const turned = way();
  if (!turned) return;
  const { title, applied, left } = turned;
  const { view, file } = shown.get();
  // By the names they have before it: of a text that is gone nobody knows its title.
  const where = applied.map(({ path }) => nameOf(path)).join(', ');
  if (applied.length > 0) spread(applied, false);
  const there = applied.filter(({ path }) => onSheet(path) && documents.get(path));
  const own = there.find(({ path }) => path === file) ?? there[0];
  if (view === 'write' && own) lookAt(own.path, ...endOf(own.edits[0]));
  if (left.length > 0) say(words.leftOnDisk(title, left.map(nameOf).join(', ')), true);
  else if (view !== 'write' || own?.path !== file || applied.length > 1) say(told(title, where));
  bringBack(applied.flatMap(({ edits }) => edits.map(({ text }) => text)));
  const now = unusedFigures();
  // What was said of a picture that is shown again is no longer so, nor is what was offered.
  if (before.some((path) => !now.includes(path))) say(told(title, where));
  tellUnused(
    now.filter((path) => !before.includes(path)),
    told(title, where),
  );
}

/** The caret stands behind what came back, or where something went. */
function endOf(edit: { readonly start: number; readonly text: string } | undefined): [number, number] {
  const end = edit ? edit.start + edit.text.length : 0;
  return [end, end];
}
