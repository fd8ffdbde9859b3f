/** Which document the sheets of Review are about: the one shown in Write, or the first; choosing here chooses there. */
import type { ReactNode } from 'react';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { DocumentLine } from '../worker/queries/queries.ts';

/** `guides`: those as well. */
function useDocuments(guides: boolean): { readonly all: readonly DocumentLine[]; readonly file: string | undefined } {
  const { overview, file } = shown.usePick('overview', 'file');
  const all = overview?.documents.filter(({ kind }) => guides || kind === 'procedure') ?? [];
  // Who has opened nothing yet most likely asks about a procedure.
  const first = all.find(({ kind }) => kind === 'procedure') ?? all[0];
  return { all, file: (all.find((one) => one.file === file) ?? first)?.file };
}

export const useProcedure = (): string | undefined => useDocuments(false).file;

/** A procedure or a guide. */
export const useDocument = (): string | undefined => useDocuments(true).file;

export function DocumentChoice({ guides = false }: { readonly guides?: boolean }): ReactNode {
  const { all, file } = useDocuments(guides);
  return (
    <select
      aria-label={words.document}
      value={file ?? ''}
      onChange={(event) => {
        shown.set({ file: event.target.value, variant: undefined, goTo: undefined });
      }}
    >
      {all.map((one) => (
        <option key={one.file} value={one.file}>
          {one.number} {one.title}
        </option>
      ))}
    </select>
  );
}
