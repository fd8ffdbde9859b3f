/** Which procedure the sheets of Review are about: the one shown in Write, or the first; choosing here chooses there. */
import type { ReactNode } from 'react';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';

export function useProcedure(): string | undefined {
  const { overview, file } = shown.usePick('overview', 'file');
  const procedures = overview?.documents.filter(({ kind }) => kind === 'procedure') ?? [];
  return (procedures.find((one) => one.file === file) ?? procedures[0])?.file;
}

export function DocumentChoice(): ReactNode {
  const { overview } = shown.usePick('overview');
  return (
    <select
      aria-label={words.document}
      value={useProcedure() ?? ''}
      onChange={(event) => {
        shown.set({ file: event.target.value, variant: undefined, goTo: undefined });
      }}
    >
      {overview?.documents
        .filter(({ kind }) => kind === 'procedure')
        .map((one) => (
          <option key={one.file} value={one.file}>
            {one.number} {one.title}
          </option>
        ))}
    </select>
  );
}
