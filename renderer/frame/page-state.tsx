/**
 * What the page as a whole is about, as attributes of its element: whether all is checked, what waits, what is unsaved. Set without drawing anything,
 * since it changes twice with every key. The element is drawn with what holds before anything was read.
 */
import { type RefObject, useLayoutEffect } from 'react';
import { shown } from '../state/shown.ts';

export function PageState({ page }: { readonly page: RefObject<HTMLElement | null> }): null {
  useLayoutEffect(() => {
    const put = (): void => {
      const element = page.current;
      if (element === null) return;
      const { checking, waiting, due, revision, unsaved } = shown.get();
      element.dataset.checked = String(!checking && revision > 0);
      element.dataset.waiting = String(waiting + (due ? 1 : 0));
      element.dataset.unsaved = String(unsaved.size);
    };
    put();
    // Later than what is drawn for the same change: who reads "checked" finds the findings there.
    const after = (): void => queueMicrotask(() => queueMicrotask(put));
    return shown.listen(after, 'checking', 'waiting', 'due', 'revision', 'unsaved');
  }, [page]);
  return null;
}
