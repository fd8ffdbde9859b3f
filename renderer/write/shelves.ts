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
export function shelvesOf(documents: readonly DocumentLine[], order: Order, fits: (one: DocumentLine) => boolean): readonly ShelfOfList[] {
  const procedures = documents.filter(({ kind }) => kind === 'procedure').filter(fits);
  const shelves = order === 'guide' ? guideShelves(documents, procedures, fits) : headShelves(procedures, order);
  const placed = new Set(shelves.flatMap(({ lines }) => lines));
  const loose = procedures.filter((one) => !placed.has(one));
  return loose.length === 0 ? shelves : [...shelves, { head: undefined, lines: loose }];
}

/** Every word that is looked for stands somewhere in the line, in whatever order. */
export function fitting(wanted: string): (one: DocumentLine) => boolean {
  const sought = wanted.trim().toLowerCase().split(/\s+/);
  return ({ number, title, models, symptoms, families }) => {
    const said = [number, title, ...models, ...symptoms, ...families].join('\n').toLowerCase();
    return sought.every((word) => said.includes(word));
  };
}

/** What a line must be to be listed, besides what is looked for. */
export const ONLY = ['all', 'found', 'unproved', 'unsigned', 'remarks', 'unsaved'] as const;
export type Only = (typeof ONLY)[number];

/** `found`: it has errors or warnings. What is not known yet is listed rather than left out. */
export function isOnly(
  only: Only,
  { kind, verdict, signature, openRemarks }: DocumentLine,
  { found, unsaved }: { readonly found: boolean; readonly unsaved: boolean },
): boolean {
  switch (only) {
    case 'all':
      return true;
    case 'found':
      return found;
    case 'unproved':
      return kind === 'procedure' && verdict !== 'proved';
    case 'unsigned':
      return signature !== 'fresh';
    case 'remarks':
      return openRemarks !== 0;
    case 'unsaved':
      return unsaved;
  }
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
