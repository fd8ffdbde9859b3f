/** The page that the caret's step is printed on, made by the engine that prints. A click on it goes to the text. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { Margin } from '../../procedures-schema/assist/index.ts';
import { PageCanvas } from '../parts/page-canvas.tsx';
import { useRoom } from '../parts/room.ts';
import { useAnswer } from '../state/answer.ts';
import { goTo, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';

/** CSS pixels: below this the print cannot be told apart. */
const MIN_WIDTH = 330;

/** Characters: so near before the first step stands only its heading. */
const HEADING = 200;

/** Milliseconds from which on pages wait until the hands rest. */
const SLOW = 30;

export function PageProof({ margin, number }: { readonly margin: Margin | undefined; readonly number: string }): ReactNode {
  const { file, caret } = shown.usePick('file', 'caret');
  const [frame, room] = useRoom();
  const took = useRef(0);
  const made = useAnswer('pages', file === undefined ? undefined : { file, draft: false }, took.current > SLOW ? 2 * took.current : 0);
  took.current = made?.milliseconds ?? 0;
  const [at, setAt] = useState(0);
  const steps = margin?.lines ?? [];
  const before = steps.findLastIndex(({ span }) => span.start <= caret);
  // From a heading the page of its first step is looked for.
  const order = before < 0 && (steps[0]?.span.start ?? 0) - caret < HEADING ? 0 : before;
  const marked = order < 0 || steps.length === 0 ? undefined : `doc ${number} step ${order}`;
  const pages = made?.pages ?? [];
  useEffect(() => {
    const page = marked === undefined ? -1 : pages.findIndex(({ ops }) => ops.some((op) => op.op === 'target' && op.name === marked));
    if (page >= 0) setAt(page);
  }, [marked, pages]);
  const page = pages[Math.min(at, pages.length - 1)];
  if (!page) return <p className="quiet proof-empty">{made === undefined ? words.checking : words.noPage}</p>;
  const width = Math.max(MIN_WIDTH, room - 4);
  const toText = (y: number): void => {
    const places = page.ops.flatMap((op) => (op.op === 'target' && op.name.includes(' step ') ? [op] : []));
    const nearest = places.filter((one) => one.y <= y).at(-1) ?? places[0];
    const step = nearest && steps[Number(/ step (\d+)$/.exec(nearest.name)?.[1])];
    if (step && file !== undefined) goTo(file, step.span.start);
  };
  return (
    <figure className="proof" ref={frame} aria-label={words.pageProof}>
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: from the keyboard the caret leads the page, this is its way back */}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: as above */}
      <div
        onClick={(event) => {
          const box = event.currentTarget.getBoundingClientRect();
          toText(((event.clientY - box.top) / box.height) * page.height);
        }}
      >
        <PageCanvas page={page} width={width} label={words.page(at + 1, pages.length)} {...(marked === undefined ? {} : { marked })} />
      </div>
      <figcaption>
        <button type="button" aria-label="-1" disabled={at === 0} onClick={() => setAt(at - 1)}>
          ‹
        </button>
        {words.page(Math.min(at, pages.length - 1) + 1, pages.length)}
        <button type="button" aria-label="+1" disabled={at >= pages.length - 1} onClick={() => setAt(at + 1)}>
          ›
        </button>
      </figcaption>
    </figure>
  );
}
