/** How wide an element may be, in CSS pixels, kept up to date. */
import { useCallback, useRef, useState } from 'react';

/** A ref for the element and its width; 0 until it is there. */
export function useRoom(): readonly [(element: HTMLElement | null) => void, number] {
  const [room, setRoom] = useState(0);
  const watcher = useRef<ResizeObserver>(undefined);
  const frame = useCallback((element: HTMLElement | null) => {
    watcher.current?.disconnect();
    if (!element) return;
    watcher.current = new ResizeObserver(([entry]) => setRoom(Math.floor(entry?.contentRect.width ?? 0)));
    watcher.current.observe(element);
  }, []);
  return [frame, room];
}
