/** The page that the caret's step is printed on, made by the engine that prints. A click on it goes to the text. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { Margin } from '../../procedures-schema/assist/index.ts';
import { PageCanvas } from '../parts/page-canvas.tsx';
import { pageName } from '../parts/page-name.ts';
import { useRoom } from '../parts/room.ts';
import { useAnswer } from '../state/answer.ts';
import { goTo, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { ProofShown } from '../worker/queries/queries.ts';
import { useSureCaret } from './sure-caret.ts';

/** CSS pixels: below this the print cannot be told apart. */
const MIN_WIDTH = 330;

/** Characters: so near before the first step stands only its heading. */
const HEADING = 200;

/** Milliseconds that the caret rests in a step before the page goes there. */
const STEADY = 60;

const NOTHING = { page: undefined, pictures: [], number: '', at: 0, count: 0 };

/** Milliseconds from which on pages wait until the hands rest. */
const SLOW = 50;

export function PageProof({ margin, number }: { readonly margin: Margin | undefined; readonly number: string }): ReactNode {
  const { file } = shown.usePick('file');
  const caret = useSureCaret(margin);
  // Which state of the text the steps are of.
  const told = useRef({ margin, revision: 0 });
  if (told.current.margin !== margin) told.current = { margin, revision: shown.get().revision };
  const [frame, room] = useRoom();
  const steps = margin?.lines ?? [];
  const before = steps.findLastIndex(({ span }) => span.start <= caret);
  // From a heading the page of its first step is looked for.
  const order = before < 0 && (steps[0]?.span.start ?? 0) - caret < HEADING ? 0 : before;
  const marked = useSteady(order < 0 || steps.length === 0 ? undefined : `doc ${number} step ${order}`, file);
  // Leafing holds until the caret goes to another step or the text changes.
  const state = `${file} ${marked} ${marked === undefined ? '' : told.current.revision}`;
  const [leafed, setLeafed] = useState<{ readonly page: number; readonly state: string }>();
  const own = leafed?.state === state ? leafed.page : undefined;
  const took = useRef(0);
  const made = useAnswer(
    'proof',
    file === undefined ? undefined : { file, ...(marked === undefined ? {} : { marked }), ...(own === undefined ? {} : { page: own }) },
    took.current > SLOW ? 2 * took.current : 0,
  );
  took.current = made?.milliseconds ?? took.current;
  // The page stands until the next one comes.
  const last = useRef<{ readonly file: string | undefined; readonly made: ProofShown }>(undefined);
  if (made !== undefined) last.current = { file, made };
  const { page, pictures, number: printed, at, count } = (last.current?.file === file ? last.current?.made : undefined) ?? NOTHING;
  const leaf = (to: number): void => setLeafed({ page: to, state });
  if (!page) return <p className="quiet proof-empty">{file === undefined ? words.noPage : whyNoPage(file, margin)}</p>;
  const name = pageName(printed, at, count);
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
        <PageCanvas page={page} pictures={pictures} width={width} label={name} {...(marked === undefined ? {} : { marked })} />
      </div>
      <figcaption>
        <button type="button" aria-label={words.pageBefore} title={words.pageBefore} disabled={at === 0} onClick={() => leaf(at - 1)}>
          ‹
        </button>
        <span>{name}</span>
        <button type="button" aria-label={words.pageAfter} title={words.pageAfter} disabled={at >= count - 1} onClick={() => leaf(at + 1)}>
          ›
        </button>
      </figcaption>
    </figure>
  );
}

/** Only procedures and guides have pages of their own. */
function whyNoPage(file: string, margin: Margin | undefined): string {
  if (file.startsWith('registers/')) return words.registersNotPrinted;
  if (!/^(procedures|guides)\//.test(file)) return words.textNotPrinted;
  return margin === undefined ? words.checking : words.noPage;
}

/** The step at the caret, once the caret rests in it. */
function useSteady(marked: string | undefined, file: string | undefined): string | undefined {
  const [held, setHeld] = useState<{ readonly marked: string | undefined; readonly file: string | undefined }>();
  const known = held !== undefined && held.file === file && held.marked !== undefined;
  useEffect(() => {
    // A text without steps has no mark either: held once, like any other, or it would be held again and again and the page never come to rest.
    if (held?.file === file && held?.marked === marked) return;
    const timer = setTimeout(() => setHeld({ marked, file }), known ? STEADY : 0);
    return () => clearTimeout(timer);
  }, [marked, file, known, held]);
  return known ? held.marked : marked;
}
