/** Which documents stand under which heading of the library's list. Pure: it words nothing and draws nothing. */
import type { DocumentLine } from '../worker/queries/queries.ts';

export const ORDERS = ['family', 'symptom', 'guide'] as const;
export type Order = (typeof ORDERS)[number];

export interface ShelfOfList {
  /** Undefined: procedures that belong nowhere. */
  readonly head: string | undefined;
  /** The guide whose procedures stand here. */
  readonly guide?: DocumentLine;
  readonly lines: readonly DocumentLine[];
}

/** A procedure stands under every heading that it belongs to. Under a guide they stand as they are bound, else by file. */
export function shelvesOf(documents: readonly DocumentLine[], order: Order, wanted: string): readonly ShelfOfList[] {
  const fits = fitting(wanted);
  const procedures = documents.filter(({ kind }) => kind === 'procedure').filter(fits);
  const shelves = order === 'guide' ? guideShelves(documents, procedures, fits) : headShelves(procedures, order);
  const placed = new Set(shelves.flatMap(({ lines }) => lines));
  const loose = procedures.filter((one) => !placed.has(one));
  return loose.length === 0 ? shelves : [...shelves, { head: undefined, lines: loose }];
}

export function fitting(wanted: string): (one: DocumentLine) => boolean {
  const sought = wanted.trim().toLowerCase();
  return (one) =>
    sought === '' ||
    [one.number, one.title, ...one.models, ...one.symptoms, ...one.families].some((text) => text.toLowerCase().includes(sought));
}

function headShelves(procedures: readonly DocumentLine[], order: 'family' | 'symptom'): readonly ShelfOfList[] {
  const shelves = new Map<string, DocumentLine[]>();
  for (const one of procedures)
    for (const head of order === 'family' ? one.families : one.symptoms) {
      const lines = shelves.get(head);
      if (lines) lines.push(one);
      else shelves.set(head, [one]);
    }
  return [...shelves].map(([head, lines]) => ({ head, lines }));
}

/** While something is looked for, a guide stands there if it fits itself or something in it does. */
function guideShelves(
  documents: readonly DocumentLine[],
  procedures: readonly DocumentLine[],
  fits: (one: DocumentLine) => boolean,
): readonly ShelfOfList[] {
  const numbered = new Map<string, DocumentLine[]>();
  for (const one of procedures) numbered.set(one.number, [...(numbered.get(one.number) ?? []), one]);
  return documents
    .filter(({ kind }) => kind === 'guide')
    .map((guide) => ({ head: guide.number, guide, lines: (guide.binds ?? []).flatMap((number) => numbered.get(number) ?? []) }))
    .filter(({ guide, lines }) => lines.length > 0 || fits(guide));
}
