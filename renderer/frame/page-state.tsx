/**
 * What the page as a whole is about, as attributes of its element: whether all is checked, what waits, what is unsaved. Set apart from what it holds,
 * since it changes twice with every key and nothing else need be drawn again for that. The element is drawn with what holds before anything was read.
 */
import { type RefObject, useLayoutEffect } from 'react';
import { shown } from '../state/shown.ts';

export function PageState({ page }: { readonly page: RefObject<HTMLElement | null> }): null {
  const { checking, waiting, due, revision, unsaved } = shown.usePick('checking', 'waiting', 'due', 'revision', 'unsaved');
  useLayoutEffect(() => {
    const element = page.current;
    if (element === null) return;
    element.dataset.checked = String(!checking && revision > 0);
    element.dataset.waiting = String(waiting + (due ? 1 : 0));
    element.dataset.unsaved = String(unsaved.size);
  });
  return null;
}
