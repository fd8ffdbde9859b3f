/** The next free number of a document by the pattern of the house, and the file that goes with it. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import { foldText } from '../format/index.ts';

/** The number after the highest of the same family, else of the library, else the first of the pattern. Steps of ten are kept. */
export function nextNumber(library: LibraryFacts, models: readonly string[]): string | undefined {
  const fits = fitting(library.registers.house.documentNumber);
  const families = new Set(library.registers.models.filter(({ name }) => models.includes(name)).map(({ family }) => family));
  const ofFamily = (facts: ProcedureFacts): boolean =>
    facts.head.models.some(({ name }) => families.has(library.registers.models.find((model) => model.name === name)?.family ?? ''));
  return nextAfter(counted(library.procedures.filter(ofFamily), fits), counted(library.procedures, fits), library);
}

/** The number after the highest of the guides, else of the procedures, else the first of the pattern. */
export function nextGuideNumber(library: LibraryFacts): string | undefined {
  const fits = fitting(library.registers.house.documentNumber);
  return nextAfter(counted(library.guides, fits), counted(library.procedures, fits), library);
}

/** Numbers that can be counted on, in order. */
const counted = (list: readonly { readonly head: { readonly id: string } }[], fits: (id: string) => boolean): readonly string[] =>
  list
    .map(({ head }) => head.id)
    .filter((id) => /\d+$/.test(id) && fits(id))
    .sort(byCount);

const takenIn = (library: LibraryFacts): ReadonlySet<string> =>
  new Set(
    [...library.procedures, ...library.guides].map(({ head }) => head.id).concat(library.registers.documents.map(({ number }) => number)),
  );

function nextAfter(own: readonly string[], all: readonly string[], library: LibraryFacts): string | undefined {
  const pattern = library.registers.house.documentNumber;
  const fits = fitting(pattern);
  const taken = takenIn(library);
  const from = own.at(-1) ?? all.at(-1);
  if (from === undefined) {
    const first = firstOf(pattern);
    return first === undefined || !fits(first) ? undefined : taken.has(first) ? after(first, 1, taken, fits) : first;
  }
  const tens = own.length > 0 ? own.every((id) => id.endsWith('0')) : from.endsWith('0');
  return after(from, tens ? 10 : 1, taken, fits) ?? after(from, 1, taken, fits);
}

function byCount(a: string, b: string): number {
  return a.length - b.length || (a < b ? -1 : a > b ? 1 : 0);
}

/** Counts on from a number, its digits kept in width, until one is free. */
function after(from: string, step: number, taken: ReadonlySet<string>, fits: (id: string) => boolean): string | undefined {
  const digits = /\d+$/.exec(from)?.[0] ?? '';
  const head = from.slice(0, from.length - digits.length);
  for (let count = Number(digits) + step, tries = 0; tries < 10_000; count += step, tries++) {
    const id = head + String(count).padStart(digits.length, '0');
    if (!fits(id)) return undefined;
    if (!taken.has(id)) return id;
  }
  return undefined;
}

function fitting(pattern: string | undefined): (id: string) => boolean {
  if (pattern === undefined) return () => true;
  try {
    const whole = new RegExp(`^(?:${pattern})$`, 'u');
    return (id) => whole.test(id);
  } catch {
    return () => true;
  }
}

/** The first number of a simple pattern: letters, digits and counts of digits. */
function firstOf(pattern: string | undefined): string | undefined {
  if (pattern === undefined) return 'P-1000';
  const made = pattern
    .replace(/(?:\\d|\[0-9\])\{(\d+)(?:,\d*)?\}/g, (_, count: string) => `1${'0'.repeat(Math.max(0, Number(count) - 1))}`)
    .replace(/(?:\\d|\[0-9\])[+]?/g, '1')
    .replace(/\\([.-])/g, '$1');
  return /^[\w./-]+$/.test(made) ? made : undefined;
}

/** Why a number that somebody typed cannot be that of a new document; undefined: it can. */
export function numberFault(number: string, library: LibraryFacts): string | undefined {
  if (number === '') return 'A document needs a number.';
  if (takenIn(library).has(number)) return `${number} is taken.`;
  const pattern = library.registers.house.documentNumber;
  return fitting(pattern)(number) ? undefined : `${number} does not follow the pattern of the house, ${pattern}.`;
}

/** "procedures/OM-3120-check-the-lift.md": what is no letter of a file name is left out. */
export const fileOf = (folder: 'procedures' | 'guides', number: string, title: string): string =>
  `${folder}/${number.replace(/[^\w.-]+/g, '-')}-${slug(title) || folder.slice(0, -1)}.md`;

function slug(title: string): string {
  const words = foldText(title)
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return words.split('-').slice(0, 6).join('-');
}
