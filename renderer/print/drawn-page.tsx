/** A printed page at any size, sharp: painted in tiles, and only those near the window, so that a large page holds no more memory than a small one. */
import { type ReactNode, type RefObject, useEffect, useRef, useState } from 'react';
import type { DrawnPage } from '../../publishing/index.ts';
import { paintPage } from '../parts/paint-page.ts';
import { paintWithPictures } from '../parts/pictures-on.ts';
import type { ShownPicture } from '../worker/queries/queries.ts';

interface Props {
  readonly page: DrawnPage;
  /** By the number that the page has them under. */
  readonly pictures: readonly ShownPicture[];
  /** CSS pixels. */
  readonly width: number;
  readonly label: string;
}

/** CSS pixels of a tile's side: a multiple of all usual fractions of a dot, so that tiles meet without a seam. */
const TILE = 480;
/** Painted ahead of scrolling, of the height and width of what holds the pages. */
const AHEAD = '25%';

export function DrawnPageAt({ page, pictures, width, label }: Props): ReactNode {
  const frame = useRef<HTMLDivElement>(null);
  const near = useNear(frame);
  const height = (width * page.height) / page.width;
  const across = Math.ceil(width / TILE);
  const tiles = near ? across * Math.ceil(height / TILE) : 0;
  return (
    <div ref={frame} className="page-canvas" style={{ width, height }} role="img" aria-label={label}>
      {Array.from({ length: tiles }, (_, at) => {
        const [left, top] = [(at % across) * TILE, Math.floor(at / across) * TILE];
        const size = { left, top, width: Math.min(TILE, width - left), height: Math.min(TILE, height - top) };
        return <Tile key={`${left} ${top}`} page={page} pictures={pictures} scale={width / page.width} {...size} />;
      })}
    </div>
  );
}

interface TileProps {
  readonly page: DrawnPage;
  readonly pictures: readonly ShownPicture[];
  /** CSS pixels to the millipoint. */
  readonly scale: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

function Tile({ page, pictures, scale, left, top, width, height }: TileProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const near = useNear(canvas);
  const dots = useDots();
  useEffect(() => {
    const element = canvas.current;
    if (!element) return;
    element.width = near ? Math.ceil(width * dots) : 0;
    const context = near ? element.getContext('2d') : undefined;
    if (!context) return;
    element.height = Math.ceil(height * dots);
    const part = { left: left * dots, top: top * dots, scale: scale * dots };
    return paintWithPictures(page, pictures, (pictureOf) => paintPage(context, page, part, pictureOf));
  }, [page, pictures, scale, left, top, width, height, near, dots]);
  return <canvas ref={canvas} style={{ left, top, width, height }} />;
}

/** Whether an element is in the part of its pages that is seen, or close to it. */
function useNear(element: RefObject<HTMLElement | null>): boolean {
  const [near, setNear] = useState(false);
  useEffect(() => {
    const watcher = new IntersectionObserver((seen) => setNear(seen.at(-1)?.isIntersecting === true), {
      // A margin counts only around what is scrolled itself.
      root: element.current?.closest('.pages') ?? null,
      rootMargin: AHEAD,
    });
    if (element.current) watcher.observe(element.current);
    return () => watcher.disconnect();
  }, [element]);
  return near;
}

/** Dots to the CSS pixel; another once the window goes to another screen or the browser enlarges. */
function useDots(): number {
  const [dots, setDots] = useState(globalThis.devicePixelRatio || 1);
  useEffect(() => {
    const asked = matchMedia(`(resolution: ${dots}dppx)`);
    const hear = (): void => setDots(globalThis.devicePixelRatio || 1);
    asked.addEventListener('change', hear);
    return () => asked.removeEventListener('change', hear);
  }, [dots]);
  return dots;
}
