/** A remark on a place that Review shows, made where it is seen: nobody has to look for it once more in the text. */
import type { ReactNode } from 'react';
import { openPanel } from '../state/panel.ts';
import { words } from '../words/words.ts';

export const RemarkHere = ({ file, offset }: { readonly file: string; readonly offset: number }): ReactNode =>
  // Registers have no record of their own.
  file.startsWith('procedures/') || file.startsWith('guides/') ? (
    <button type="button" onClick={() => openPanel('remark', { at: { file, offset } })}>
      {words.remark} …
    </button>
  ) : null;
