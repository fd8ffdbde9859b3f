/** One printed page on a canvas. Decides nothing about it. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { DrawnPage } from '../../publishing/index.ts';
import { paintPage } from './paint-page.ts';

interface Props {
  readonly page: DrawnPage;
  /** CSS pixels. */
  readonly width: number;
  readonly label: string;
  /** Names of places on the page to mark, with the place's own height. */
  readonly marked?: string;
}

export function PageCanvas({ page, width, label, marked }: Props): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
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
      return;
    }
    const context = element?.getContext('2d');
    if (!element || !context) return;
    const dots = globalThis.devicePixelRatio || 1;
    element.width = Math.round(width * dots);
    element.height = Math.round(height * dots);
    paintPage(context, page, { left: 0, top: 0, scale: element.width / page.width });
    const target = marked === undefined ? undefined : page.ops.find((op) => op.op === 'target' && op.name === marked);
    if (target?.op === 'target') {
      context.fillStyle = '#7a2e12';
      context.fillRect(0, target.y, page.width / 90, 22_000);
    }
  }, [page, width, height, marked, near]);
  return <canvas ref={canvas} className="page-canvas" style={{ width, height }} role="img" aria-label={label} />;
}
