/** How much room an element has, in CSS pixels, kept up to date. */
import { useCallback, useRef, useState } from 'react';

export interface Room {
  readonly width: number;
  readonly height: number;
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
