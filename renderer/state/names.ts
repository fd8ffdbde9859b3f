/** Files of the library by the names that people know them by. Places within them are for `parts/place.tsx`. */
import { words } from '../words/words.ts';
import { shown } from './shown.ts';

const REGISTER = /^registers\/([\w-]+)\.ya?ml$/;

/** What stands in the list of the library: number and title, or the register's name. */
export function nameOf(file: string): string {
  const document = shown.get().overview?.documents.find((one) => one.file === file);
  return document ? `${document.number} ${document.title}`.trim() : registerName(file);
}

/** A file that is neither goes by its path. */
export function registerName(file: string): string {
  if (file === 'library.yaml') return words.libraryFile;
  const own = REGISTER.exec(file)?.[1];
  return own === undefined ? file : (words.registerNames[own] ?? own);
}
