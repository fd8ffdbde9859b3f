/** A remark on a place that Review shows, made where it is seen: nobody has to look for it once more in the text. */
import type { ReactNode } from 'react';
import { useAnswer } from '../state/answer.ts';
import { openPanel } from '../state/panel.ts';
import { words } from '../words/words.ts';

/** Nothing where nobody can remark: in a register, or beside no step. */
export function RemarkHere({ file, offset }: { readonly file: string; readonly offset: number }): ReactNode {
  const line = useAnswer('pinLine', { file, offset });
  return line ? (
    <button type="button" onClick={() => openPanel('remark', { at: { file, offset } })}>
      {words.remark} …
    </button>
  ) : null;
}
