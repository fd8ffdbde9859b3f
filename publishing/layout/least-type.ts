/** A checklist on a small leaf that would take more than two sheets is set half a point smaller where that saves one: boxes stay as large. Chooses only. */
import type { Book } from '../book.ts';
import type { Kit, LayoutNote } from './kit.ts';
import { type MeasuredChapter, placeAll } from './place.ts';
import { isSmall, shortSheet } from './short-sheet.ts';

/** What a checklist is meant to take. */
const mostSheets = 2;

/** `measure` is asked for one or for both of them, each under a name of its own. */
export function inFewestSheets(kit: Kit, measure: (kit: Kit, type: string) => MeasuredChapter): MeasuredChapter {
  const { book } = kit;
  if (book.short === undefined || !isSmall(kit)) return measure(kit, '');
  const tried = (sheet: Kit['sheet'], type: string) => {
    const notes: LayoutNote[] = [];
    const made = measure({ ...kit, sheet, notes }, type);
    return { made, notes, sheets: sheetsOf(made, book) };
  };
  const usual = tried(kit.sheet, '');
  const least = usual.sheets > mostSheets ? tried(shortSheet(book.paper, true), 'least type') : usual;
  const { made, notes } = least.sheets < usual.sheets ? least : usual;
  kit.notes.push(...notes);
  return made;
}

const sheetsOf = (made: MeasuredChapter, book: Book): number => Math.ceil(placeAll([made], book).pages.length / (book.duplex ? 2 : 1));
