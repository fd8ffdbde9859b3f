/** The pages, or the sides of sheets, to be read: under a line of buttons, in rows, gone through by keys. The one at hand stays at hand when the size changes. */
import { type KeyboardEvent, type ReactNode, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { pageName } from '../parts/page-name.ts';
import { useRooms } from '../parts/room.ts';
import { words } from '../words/words.ts';
import type { PagesShown } from '../worker/queries/queries.ts';
import { FOLD, GAP, percentOf, rowsOf, scaleOf } from './arrange.ts';
import { DrawnPageAt } from './drawn-page.tsx';
import { PagesBar } from './pages-bar.tsx';
import { SheetCanvas } from './sheet-canvas.tsx';
import { keepPlace, placeIn, setZoom, stepped, viewing } from './viewing.ts';

/** What stands under a page. */
const CAPTION = 26;
/** The page at hand is the one this far down in what is seen. */
const AT_HAND = 0.3;

/** Over a page that is gone to. */
const HEAD = 6;

interface Props {
  readonly made: PagesShown;
  /** Whose pages they are: while it is the same, another edition of it is shown at the same place. */
  readonly file: string;
}

export function PagesPane({ made, file }: Props): ReactNode {
  const { zoom, arrangement } = viewing.use();
  const [frame, room] = useRooms();
  const pane = useRef<HTMLElement>(null);
  const place = useRef(placeIn(file));
  /** Where keys have scrolled to: the end of the last page cannot be brought to the top. */
  const sent = useRef<number>(undefined);
  const [index, setIndex] = useState(place.current.index);
  const { sides, pages, pictures, numbers, duplex } = made;
  const items = sides ?? pages;
  const inside = { width: room.width, height: room.height - CAPTION };
  const rows = rowsOf(items, sides ? 'single' : arrangement, duplex, zoom, inside);
  const paired = sides === undefined && arrangement === 'facing';
  const scaleOfRow = (row: (typeof rows)[number]): number => {
    const there = row.flatMap((at) => items[at ?? -1] ?? []);
    // The empty half is as wide as the page beside it.
    return scaleOf(paired ? row.map((at) => items[at ?? -1] ?? there[0] ?? { width: 1, height: 1 }) : there.slice(0, 1), zoom, inside);
  };
  const at = Math.min(index, items.length - 1);
  const rowOf = rows.findIndex((row) => row.includes(at));
  const percent = percentOf(scaleOfRow(rows[rowOf] ?? [0]));
  useEffect(() => viewing.set({ percent }), [percent]);

  const elements = (): HTMLElement[] => [...(pane.current?.children ?? [])] as HTMLElement[];
  const look = (): void => {
    const element = pane.current;
    if (!element) return;
    if (sent.current !== undefined && Math.abs(element.scrollTop - sent.current) < 2) return;
    sent.current = undefined;
    const seen = element.scrollTop + element.clientHeight * AT_HAND;
    const nth = elements().findLastIndex(({ offsetTop }) => offsetTop <= seen);
    const own = elements()[nth];
    const first = rows[nth]?.find((one) => one !== undefined);
    if (own === undefined || first === undefined) return;
    place.current = {
      index: rows[nth]?.includes(at) ? at : first,
      down: (element.scrollTop - own.offsetTop) / own.offsetHeight,
      across: (element.scrollLeft + element.clientWidth / 2) / element.scrollWidth,
    };
    keepPlace(file, place.current);
    setIndex(place.current.index);
  };
  const shape = `${zoom} ${arrangement} ${room.width} ${room.height} ${sides !== undefined} ${items.length}`;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the shape is what the rows follow from
  useLayoutEffect(() => {
    const element = pane.current;
    const own = elements()[rows.findIndex((row) => row.includes(Math.min(place.current.index, items.length - 1)))];
    if (!element || !own) return;
    // A whole page is seen from its head, whatever part of it was seen before.
    element.scrollTop = zoom === 'page' ? own.offsetTop - HEAD : own.offsetTop + place.current.down * own.offsetHeight;
    element.scrollLeft = place.current.across * element.scrollWidth - element.clientWidth / 2;
    if (sent.current !== undefined) sent.current = element.scrollTop;
  }, [shape]);

  const go = (wanted: number): void => {
    const element = pane.current;
    const to = Math.max(0, Math.min(wanted, items.length - 1));
    const own = elements()[rows.findIndex((row) => row.includes(to))];
    if (!element || !own) return;
    place.current = { ...place.current, index: to, down: 0 };
    keepPlace(file, place.current);
    element.scrollTop = own.offsetTop - HEAD;
    sent.current = element.scrollTop;
    setIndex(to);
    own.querySelector<HTMLElement>(`[data-page="${to}"]`)?.focus({ preventScroll: true });
  };
  const keys = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const beside = (step: number): number => rows[rowOf + step]?.find((one) => one !== undefined) ?? at;
    if (event.key === 'PageDown') go(beside(1));
    else if (event.key === 'PageUp') go(beside(-1));
    else if (event.key === 'Home') go(0);
    else if (event.key === 'End') go(items.length - 1);
    // Heard only where the pages have the focus; elsewhere these are letters.
    else if (event.key === '+') setZoom(stepped(true));
    else if (event.key === '-') setZoom(stepped(false));
    else return;
    event.preventDefault();
  };
  const nameOf = (page: number): string => (sides ? words.side(page + 1, sides.length) : pageName(numbers[page] ?? '', page, pages.length));
  return (
    <div className="pages-side">
      <PagesBar numbers={sides ? sides.map(() => '') : numbers} at={at} go={go} sides={sides !== undefined} />
      <section
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the pages are scrolled from the keyboard too
        tabIndex={0}
        className="pages"
        aria-label={words.pagesToRead}
        onScroll={look}
        onKeyDown={keys}
        ref={(element) => {
          pane.current = element;
          frame(element);
        }}
      >
        {rows.map((row) => {
          const scale = scaleOfRow(row);
          return (
            <div key={row.find((one) => one !== undefined)} className="pages-row" style={{ gap: paired ? FOLD : GAP }}>
              {row.map((page, nth) => {
                const item = items[page ?? -1];
                if (page === undefined || item === undefined) {
                  const width = (items[row.find((one) => one !== undefined) ?? 0]?.width ?? 0) * scale;
                  return (
                    <div key={nth === 0 ? 'left' : 'right'} className="blank-back" style={{ width }}>
                      {duplex || row.includes(0) ? null : words.blankBack}
                    </div>
                  );
                }
                const width = item.width * scale;
                return (
                  <figure key={page} data-page={page} tabIndex={-1} aria-label={nameOf(page)} className="page-figure">
                    {sides?.[page] ? (
                      <SheetCanvas side={sides[page]} pages={pages} pictures={pictures} width={width} label={nameOf(page)} />
                    ) : (
                      <DrawnPageAt page={item as (typeof pages)[number]} pictures={pictures} width={width} label={nameOf(page)} />
                    )}
                    <figcaption>{nameOf(page)}</figcaption>
                  </figure>
                );
              })}
            </div>
          );
        })}
      </section>
    </div>
  );
}
