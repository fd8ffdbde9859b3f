/** One side of a printed sheet: its pages where they stand, over the marks to cut and fold by. Decides nothing about either. */
import type { CSSProperties, ReactNode } from 'react';
import type { DrawnPage, SheetSide } from '../../publishing/index.ts';
import { words } from '../words/words.ts';
import type { ShownPicture } from '../worker/queries/queries.ts';
import { DrawnPageAt } from './drawn-page.tsx';

interface Props {
  readonly side: SheetSide;
  readonly pages: readonly DrawnPage[];
  /** By the number that the pages have them under. */
  readonly pictures: readonly ShownPicture[];
  /** CSS pixels. */
  readonly width: number;
  readonly label: string;
}

const MILLION = 1_000_000;

export function SheetCanvas({ side, pages, pictures, width, label }: Props): ReactNode {
  const scale = width / side.width;
  return (
    <div className="printed-sheet" style={{ width, height: side.height * scale }}>
      <DrawnPageAt page={{ width: side.width, height: side.height, ops: side.marks }} pictures={pictures} width={width} label={label} />
      {side.places.map(({ page, x, y, scale: own, turned }) => {
        const drawn = pages[page];
        if (!drawn) return null;
        const wide = (drawn.width * own * scale) / MILLION;
        const place: CSSProperties = { left: x * scale, top: y * scale + (turned ? wide : 0) };
        return (
          <div key={page} className={turned ? 'on-sheet turned' : 'on-sheet'} style={place}>
            <DrawnPageAt page={drawn} pictures={pictures} width={wide} label={words.page(page + 1, pages.length)} />
          </div>
        );
      })}
    </div>
  );
}
