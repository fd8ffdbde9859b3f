/** What was written last in Print, to be read or found at once. Writing it is for the view. */
import type { ReactNode } from 'react';
import { inShell } from '../host.ts';
import { showOut } from '../state/saving.ts';
import { words } from '../words/words.ts';

export function WrittenFile({ name }: { readonly name: string }): ReactNode {
  return (
    <p className="row written-file">
      <span>{name}</span>
      {/\.pdf$/.test(name) ? (
        <button type="button" onClick={() => void showOut(name, 'read')}>
          {words.readIt}
        </button>
      ) : null}
      {inShell ? (
        <button type="button" onClick={() => void showOut(name, 'folder')}>
          {words.showFolder}
        </button>
      ) : null}
    </p>
  );
}
