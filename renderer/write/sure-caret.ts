/**
 * The caret in the text that the margin is of. Right after a key the caret is in the new text and the steps are still of the old one: at the end of a step
 * it would seem to stand in no step, and the note there would shrink and grow again with every key.
 */
import { useCallback, useRef, useSyncExternalStore } from 'react';
import type { Margin } from '../../procedures-schema/assist/index.ts';
import { shown } from '../state/shown.ts';

export function useSureCaret(margin: Margin | undefined): number {
  const told = useRef({ margin, revision: shown.get().revision });
  if (told.current.margin !== margin) told.current = { margin, revision: shown.get().revision };
  const sure = useRef(shown.get().caret);
  const listen = useCallback((hear: () => void) => shown.listen(hear, 'caret', 'checking', 'revision'), []);
  return useSyncExternalStore(listen, () => {
    const { caret, checking, revision } = shown.get();
    const behind = margin !== undefined && (checking || told.current.revision !== revision);
    if (!behind) sure.current = caret;
    return sure.current;
  });
}
