/** Right of the text: findings beside their lines, sentences not understood, names to settle, and how each step was read. Notes give way downwards. */
import { type CSSProperties, memo, type ReactNode, useLayoutEffect, useRef, useState } from 'react';
import type { Margin } from '../../procedures-schema/assist/index.ts';
import type { Finding } from '../../procedures-schema/index.ts';
import type { Drift } from '../../procedures-schema/narration/index.ts';
import type { LinePlaces } from '../editor/text-sheet.tsx';
import { FindingNote } from '../parts/findings.tsx';
import { Swatch } from '../parts/hatches.tsx';
import { reviewing } from '../review/reviewing.ts';
import { filming } from '../state/filming.ts';
import { focusText } from '../state/focus.ts';
import { openPanel } from '../state/panel.ts';
import { shown } from '../state/shown.ts';
import { measures, textSize } from '../state/text-size.ts';
import { words } from '../words/words.ts';
import type { ReviewOf } from '../worker/queries/queries.ts';
import { standsAt } from './at-caret.ts';
import { useNoteHeights } from './note-heights.ts';
import { useSureCaret } from './sure-caret.ts';
import { ToAccept } from './to-accept.tsx';
import { ToSettle } from './to-settle.tsx';

interface Note {
  readonly key: string;
  readonly line: number;
  /** Of the step it is about: shown where the note had to give way and stands beside another. */
  readonly label?: string;
  readonly content: ReactNode;
}

interface Props {
  readonly margin: Margin | undefined;
  readonly review: ReviewOf | undefined;
  readonly findings: readonly Finding[];
  readonly places: LinePlaces;
}

/** CSS pixels between notes. */
const GAP = 6;

/** Where a note stands, and how many lines a reading may take before the next note's own line. */
interface Place {
  readonly top: number;
  readonly lines: number;
  /** Not beside its line. */
  readonly moved: boolean;
}

export function RightMargin({ margin, review, findings, places }: Props): ReactNode {
  const caret = useSureCaret(margin);
  const root = useRef<HTMLUListElement>(null);
  /** Whether the keys are here. */
  const held = useRef(false);
  const heights = useNoteHeights();
  const { percent } = textSize.use();
  const line = measures(percent).noteLine;
  const [given, setGiven] = useState<readonly Place[]>([]);
  const { file: filmed, drifts } = filming.use();
  const notes = [
    ...findingNotes(findings, caret, margin),
    ...(filmed === margin?.file ? driftNotes(drifts, margin) : []),
    ...remarkNotes(review),
    ...stepNotes(margin, review, caret),
  ].sort((a, b) => a.line - b.line);
  // After every drawing, because only then are the heights known.
  useLayoutEffect(() => {
    let free = 0;
    const next = [...(root.current?.children ?? [])].map((child, index): Place => {
      const wanted = places.top(notes[index]?.line ?? 1);
      const top = Math.max(free, wanted);
      const below = notes[index + 1];
      const room = below ? places.top(below.line) - top : Number.POSITIVE_INFINITY;
      // A reading is as high as a line of the text and needs no gap, so that steps of one line keep theirs beside them.
      const reading = child.lastElementChild?.className === 'reading';
      free = top + heights.of(child as HTMLElement) + (reading ? 0 : GAP);
      const moved = top - wanted > line / 2;
      return { top, lines: Math.max(1, Math.min(4, Math.floor((room - 2 * 4) / line))), moved };
    });
    if (
      next.length !== given.length ||
      next.some(
        ({ top, lines, moved }, index) => top !== given[index]?.top || lines !== given[index]?.lines || moved !== given[index]?.moved,
      )
    )
      setGiven(next);
  });
  // In one column the notes are a list of their own: the one of the step at the caret is brought into sight there.
  const here = margin?.lines.findIndex(({ span }) => span.start <= caret && caret <= span.end);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each time the caret comes to another step
  useLayoutEffect(() => {
    const own = root.current?.querySelector('.reading-here')?.parentElement;
    const list = root.current?.closest('.sheet-right');
    if (own && list && getComputedStyle(list).overflowY === 'auto') list.scrollTop = own.offsetTop;
  }, [here]);
  // A button that did what it offered is gone, and the keys with it: they go back to the text.
  useLayoutEffect(() => {
    if (!held.current || document.activeElement !== document.body) return;
    held.current = false;
    focusText();
  });
  return (
    <ul
      ref={root}
      className="notes"
      onFocus={() => {
        held.current = true;
      }}
      onBlur={({ relatedTarget }) => {
        if (relatedTarget !== null && !root.current?.contains(relatedTarget)) held.current = false;
      }}
    >
      {notes.map(({ key, label, content }, index) => (
        <li
          key={key}
          className={given[index]?.moved ? 'note-place note-moved' : 'note-place'}
          style={{ top: given[index]?.top ?? 0, '--lines': given[index]?.lines ?? 1 } as CSSProperties}
        >
          {label === undefined ? null : <b className={given[index]?.moved ? 'note-label' : 'note-label heard'}>{label}</b>}
          {content}
        </li>
      ))}
    </ul>
  );
}

/** Named by what it says and the how-manieth it is: where it stands changes with every key above it, and the note would be made anew. */
function findingNotes(findings: readonly Finding[], caret: number, margin: Margin | undefined): Note[] {
  const met = new Map<string, number>();
  return findings.map((finding) => {
    const name = `${finding.check} ${finding.message}`;
    const nth = met.get(name) ?? 0;
    met.set(name, nth + 1);
    return {
      key: `${name} ${nth}`,
      line: finding.range.start.line,
      ...labelAt(margin, finding.span.start),
      content: <FindingNote finding={finding} whole={standsAt(finding, caret)} />,
    };
  });
}

function labelAt(margin: Margin | undefined, at: number): { readonly label?: string } {
  const step = margin?.lines.findLast(({ span }) => span.start <= at && at <= span.end);
  return step === undefined ? {} : { label: step.label };
}

/** What a recording says otherwise stands beside the step it is about. */
const driftNotes = (drifts: readonly Drift[], margin: Margin | undefined): Note[] =>
  drifts.flatMap(({ kind, message, span }): Note[] => {
    const line = span && margin?.lines.findLast((step) => step.span.start <= span.start)?.line;
    if (line === undefined) return [];
    return [
      {
        key: `drift ${kind}${message}`,
        line,
        content: (
          <button
            type="button"
            className="note note-remark"
            onClick={() => {
              reviewing.set({ sheet: 'film' });
              shown.set({ view: 'review' });
            }}
          >
            <b>{words.film}</b> {message}
          </button>
        ),
      },
    ];
  });

const remarkNotes = (review: ReviewOf | undefined): Note[] =>
  (review?.pins ?? []).flatMap(({ remark, index, line }): Note[] =>
    remark.settled || line === undefined
      ? []
      : [
          {
            key: `remark ${index}`,
            line,
            content: (
              <button
                type="button"
                className="note note-remark"
                onClick={() => {
                  reviewing.set({ sheet: 'remarks' });
                  shown.set({ view: 'review' });
                }}
              >
                <b>{remark.by}</b> {remark.says}{' '}
                {remark.answers.length > 0 ? <span className="quiet">({remark.answers.length})</span> : null}
              </button>
            ),
          },
        ],
  );

/** What a value is judged by, as each model and range of serial numbers has it; formulas with what they come to. */
function Limits({ name, limits }: { readonly name: string; readonly limits: readonly string[] }): ReactNode {
  return (
    <ul className="limits-here" aria-label={words.limitsOf(name)}>
      {limits.map((line) => (
        <li key={line}>{limits.length === 1 ? `${name}: ${line}` : line}</li>
      ))}
    </ul>
  );
}

/** The state of the machine stands on a line of its own: after the reading it would read as if the sentence said it. */
const StateHere = ({ step }: { readonly step: Margin['lines'][number] }): ReactNode => (
  <p className="state-here">
    <Swatch state={step.beside} first={false} />
    <span>
      <span aria-hidden="true">{words.band[step.beside]}</span>
      {step.hands.map(({ zone }) => (zone === '' ? null : <b key={zone}>; {words.handsIn(zone)}</b>))}
    </span>
  </p>
);

interface QuietProps {
  readonly beside: Margin['lines'][number]['beside'];
  readonly read: string;
  /** Why sentences were not understood, one a line; undefined: all were. */
  readonly unread: string | undefined;
}

/** A step where the caret is not: at most keys it says what it said. */
const Quiet = memo(function Quiet({ beside, read, unread }: QuietProps): ReactNode {
  return (
    <div className="reading">
      <span className="heard">{words.band[beside]}: </span>
      {/* Whole for whoever points at it, where the place beside the step cuts it. */}
      {read === '' ? null : <span title={read}>{read}</span>}
      {unread?.split('\n').map((why, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two sentences may have one reason
        <p key={index} className="unread">
          {words.notRead}: {why}
        </p>
      ))}
    </div>
  );
});

/** Readings of a step in one note, quietly; whole where the caret stands. */
function stepNotes(margin: Margin | undefined, review: ReviewOf | undefined, caret: number): Note[] {
  return (margin?.lines ?? []).flatMap((step, index): Note[] => {
    const here = step.span.start <= caret && caret <= step.span.end;
    const read = step.readings.filter(({ words: own, status }) => own.length > 0 && status !== 'remark').flatMap(({ words: own }) => own);
    const unread = step.readings.filter(({ status }) => status === 'unread' || status === 'partly');
    const note = (content: ReactNode): Note[] => [{ key: `step ${index}`, line: step.line, label: step.label, content }];
    if (!here) {
      if (read.length === 0 && unread.length === 0 && step.settle.length === 0) return [];
      return note(
        <Quiet
          beside={step.beside}
          read={read.join('; ')}
          unread={unread.length === 0 ? undefined : unread.map(({ why }) => why ?? '').join('\n')}
        />,
      );
    }
    return note(
      <div className="reading reading-here">
        <span className="heard">{words.band[step.beside]}: </span>
        {read.length > 0 ? <span title={read.join('; ')}>{read.join('; ')}</span> : null}
        {step.measured.map(({ name, limits }) => (
          <Limits key={name} name={name} limits={limits} />
        ))}
        <StateHere step={step} />
        {review ? <ToAccept readings={step.readings} review={review} /> : null}
        {unread.map((one) => (
          <p key={one.span.start} className="unread">
            {words.notRead}: {one.why}{' '}
            <button type="button" className="plain" onClick={() => openPanel('outright', { line: step.line })}>
              {words.sayOutright}
            </button>
          </p>
        ))}
        {step.settle.map((name) => (
          <ToSettle key={name.span.start} name={name} file={margin?.file ?? ''} />
        ))}
      </div>,
    );
  });
}
