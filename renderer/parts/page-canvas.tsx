/** One printed page on a canvas. Decides nothing about it. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { DrawnPage } from '../../publishing/index.ts';
import type { Decoded } from '../state/pictures.ts';
import type { ShownPicture } from '../worker/queries/queries.ts';
import { type Band, changedBand } from './changed-band.ts';
import { paintPage } from './paint-page.ts';
import { paintWithPictures } from './pictures-on.ts';

interface Props {
  readonly page: DrawnPage;
  /** By the number that the page has them under. */
  readonly pictures: readonly ShownPicture[];
  /** CSS pixels. */
  readonly width: number;
  readonly label: string;
  /** Names of places on the page to mark, with the place's own height. */
  readonly marked?: string;
}

/** As the canvas shows it. */
interface Painted {
  readonly page: DrawnPage;
  readonly scale: number;
  readonly pictures: Decoded;
  readonly mark: Band | undefined;
}

/** Millipoints. */
const MARK_HEIGHT = 22_000;

export function PageCanvas({ page, pictures, width, label, marked }: Props): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const painted = useRef<Painted>(undefined);
  const height = Math.round((width * page.height) / page.width);
  // A guide has hundreds of pages; only those near the window are painted, and unpainted ones hold no memory.
  const [near, setNear] = useState(false);
  useEffect(() => {
    const watcher = new IntersectionObserver((seen) => setNear(seen.some(({ isIntersecting }) => isIntersecting)), { rootMargin: '100%' });
    if (canvas.current) watcher.observe(canvas.current);
    return () => watcher.disconnect();
  }, []);
  useEffect(() => {
    const element = canvas.current;
    if (element && !near) {
      element.width = 0;
      painted.current = undefined;
      return;
    }
    const context = element?.getContext('2d');
    if (!element || !context) return;
    const dots = globalThis.devicePixelRatio || 1;
    const size = { width: Math.round(width * dots), height: Math.round(height * dots) };
    if (element.width !== size.width || element.height !== size.height) {
      Object.assign(element, size);
      painted.current = undefined;
    }
    const scale = element.width / page.width;
    const mark = markOn(page, marked);
    return paintWithPictures(page, pictures, (pictureOf, decoded) => {
      const before = painted.current;
      painted.current = { page, scale, pictures: decoded, mark };
      const only = before && before.scale === scale && sameOf(before.pictures, decoded) ? between(before, page, mark) : 'all';
      if (only === undefined) return;
      paintPage(context, page, { left: 0, top: 0, scale }, pictureOf, only === 'all' ? undefined : only);
      if (mark === undefined) return;
      context.fillStyle = '#7a2e12';
      context.fillRect(0, mark.top, page.width / 90, MARK_HEIGHT);
    });
  }, [page, pictures, width, height, marked, near]);
  return <canvas ref={canvas} className="page-canvas" style={{ width, height }} role="img" aria-label={label} />;
}

function markOn(page: DrawnPage, marked: string | undefined): Band | undefined {
  const target = marked === undefined ? undefined : page.ops.find((op) => op.op === 'target' && op.name === marked);
  return target?.op === 'target' ? { top: target.y, bottom: target.y + MARK_HEIGHT } : undefined;
}

/** What of the page is no longer as it was painted; undefined: nothing. */
function between(before: Painted, page: DrawnPage, mark: Band | undefined): Band | undefined {
  const moved = before.mark?.top === mark?.top ? [] : [before.mark, mark];
  const bands = [changedBand(before.page, page), ...moved].filter((one) => one !== undefined);
  if (bands.length === 0) return undefined;
  return { top: Math.min(...bands.map(({ top }) => top)), bottom: Math.max(...bands.map(({ bottom }) => bottom)) };
}

const sameOf = (one: Decoded, other: Decoded): boolean =>
  one.size === other.size && [...one].every(([path, bitmap]) => other.get(path) === bitmap);
