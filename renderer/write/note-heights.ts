/**
 * Heights of the notes beside the text, told by the browser when they change. To ask for them after every key would have the whole page laid out
 * before its frame is due; most keys change no height.
 */
import { useEffect, useRef, useState } from 'react';
import { flushSync } from 'react-dom';

export interface NoteHeights {
  /** In CSS pixels. A note that was not met yet is measured at once, and watched from then on. */
  readonly of: (note: HTMLElement) => number;
}

/** Draws anew when a watched note changed its height, before the frame in which it did is painted. */
export function useNoteHeights(): NoteHeights {
  const [, redraw] = useState(0);
  const kept = useRef<(NoteHeights & { readonly observer: ResizeObserver }) | undefined>(undefined);
  if (kept.current === undefined) {
    const heights = new WeakMap<Element, number>();
    const observer = new ResizeObserver((entries) => {
      let changed = false;
      for (const { target } of entries) {
        const height = (target as HTMLElement).offsetHeight;
        if (height === heights.get(target)) continue;
        heights.set(target, height);
        changed = true;
      }
      if (changed) flushSync(() => redraw((count) => count + 1));
    });
    kept.current = {
      observer,
      of: (note) => {
        const known = heights.get(note);
        if (known !== undefined) return known;
        const height = note.offsetHeight;
        heights.set(note, height);
        observer.observe(note);
        return height;
      },
    };
  }
  const { current } = kept;
  useEffect(() => () => current.observer.disconnect(), [current]);
  return current;
}
