/** How much room an element and the window have, in CSS pixels, kept up to date. */
import { useCallback, useRef, useState, useSyncExternalStore } from 'react';

export interface Room {
  readonly width: number;
  readonly height: number;
}

/** As in narrow.css: what stood beside the text stands below it, or all in one column. */
const NARROW = { below: '(max-width: 1180px)', column: '(max-width: 760px)' } as const;

const queries = new Map<keyof typeof NARROW, readonly [subscribe: (told: () => void) => () => void, now: () => boolean]>();

/** Asked once a window: whoever shows it is drawn anew at keys, and need not listen anew each time. */
function queryOf(how: keyof typeof NARROW): readonly [subscribe: (told: () => void) => () => void, now: () => boolean] {
  const known = queries.get(how);
  if (known) return known;
  const query = matchMedia(NARROW[how]);
  const made = [
    (told: () => void) => {
      query.addEventListener('change', told);
      return () => query.removeEventListener('change', told);
    },
    () => query.matches,
  ] as const;
  queries.set(how, made);
  return made;
}

/** Whether the window is so narrow. */
export function useNarrow(how: keyof typeof NARROW): boolean {
  return useSyncExternalStore(...queryOf(how));
}

/** A ref for the element and the room inside it; nothing until it is there. */
export function useRooms(): readonly [(element: HTMLElement | null) => void, Room] {
  const [room, setRoom] = useState<Room>({ width: 0, height: 0 });
  const watcher = useRef<ResizeObserver>(undefined);
  const frame = useCallback((element: HTMLElement | null) => {
    watcher.current?.disconnect();
    if (!element) return;
    watcher.current = new ResizeObserver(([entry]) => {
      const { width = 0, height = 0 } = entry?.contentRect ?? {};
      setRoom({ width: Math.floor(width), height: Math.floor(height) });
    });
    watcher.current.observe(element);
  }, []);
  return [frame, room];
}

/** Its width alone. */
export function useRoom(): readonly [(element: HTMLElement | null) => void, number] {
  const [frame, { width }] = useRooms();
  return [frame, width];
}
