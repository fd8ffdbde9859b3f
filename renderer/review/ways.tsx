/** Every way through a procedure, drawn: steps in order with the worst state each is begun in, and arrows where an answer leads elsewhere. */
import { type ReactNode, useState } from 'react';
import { type GraphStep, type LaidEdge, type LaidWays, layWays, shortened, TIP, waysPath } from '../../procedures-schema/review/index.ts';
import { DocumentChoice, useProcedure } from '../parts/document-choice.tsx';
import { BandLegend, Hatches, hatch } from '../parts/hatches.tsx';
import { useRoom } from '../parts/room.ts';
import { useAnswer } from '../state/answer.ts';
import { useKept } from '../state/kept-state.ts';
import { goTo } from '../state/shown.ts';
import { words } from '../words/words.ts';

const LINE = 18;
const PAD = 10;
const LANE = 13;
const TEXT = 230;
/** The least room for a step's words; more where the window has it. */
const WIDTH = 560;
const HEAD = 10;
/** As in review.css. */
const FONT = "14px 'Source Sans 3', 'Segoe UI', sans-serif";
const NOTE_FONT = "12.5px 'Source Sans 3', 'Segoe UI', sans-serif";
const ZOOMS = [0.5, 0.7, 0.85, 1, 1.25, 1.6, 2] as const;
const USUAL = ZOOMS.indexOf(1);
const LARGEST_UNASKED = 1.25;

export function Ways(): ReactNode {
  const file = useProcedure();
  const graph = useAnswer('graph', file === undefined ? undefined : { file });
  const [chosen, setZoom] = useKept<number | undefined>('ways zoom', undefined);
  const [pointed, setPointed] = useState<LaidEdge>();
  const [frame, room] = useRoom();
  const steps = graph?.steps ?? [];
  const laid = layWays(steps.length, graph?.edges ?? [], {
    line: LINE,
    pad: PAD,
    lane: LANE,
    answer: Math.max(240, Math.min(440, room * 0.24)),
    broad: (text) => broad(text, NOTE_FONT),
  });
  const longest = Math.max(0, ...steps.map(({ text }) => broad(text, FONT))) + 60;
  const width = Math.max(WIDTH, Math.min(longest, room - TEXT - laid.width - 20));
  // Until somebody chooses, as large as the window has room for, and no larger than is read at ease.
  const zoom =
    chosen ??
    Math.max(
      USUAL,
      ZOOMS.findLastIndex((one) => one <= LARGEST_UNASKED && (TEXT + width + laid.width) * one <= room),
    );
  const scale = ZOOMS[zoom] ?? 1;
  const [w, h] = [TEXT + width + laid.width, laid.height + 2 * HEAD];
  return (
    <div className="one" ref={frame}>
      <p className="row">
        <DocumentChoice />
        <button type="button" aria-label={words.smaller} disabled={zoom === 0} onClick={() => setZoom(zoom - 1)}>
          −
        </button>
        <span className="number">{Math.round(scale * 100)} %</span>
        <button type="button" aria-label={words.larger} disabled={zoom === ZOOMS.length - 1} onClick={() => setZoom(zoom + 1)}>
          +
        </button>
        <BandLegend />
      </p>
      {graph ? (
        <Panned label={words.ways}>
          <svg width={w * scale} height={h * scale} viewBox={`0 ${-HEAD} ${w} ${h}`} className="ways">
            <title>{graph.title}</title>
            <Hatches />
            {steps.map((step, row) => (
              <Row
                key={step.span.start}
                step={step}
                laid={laid.rows[row]}
                width={width}
                first={steps[row - 1]?.section !== step.section}
                open={() => file && goTo(file, step.span.start, step.span.end)}
              />
            ))}
            <text x={TEXT} y={(laid.rows.at(-1)?.middle ?? 0) + 4} className="ways-label">
              {words.walkEnd}
            </text>
            <g transform={`translate(${TEXT + width} 0)`}>
              {laid.edges.map((one) => (
                <Edge key={`${one.edge.from} ${one.edge.to}`} laid={one} point={setPointed} />
              ))}
              {pointed ? <Whole laid={pointed} right={laid.width} /> : null}
            </g>
          </svg>
        </Panned>
      ) : (
        <p className="quiet">{words.checking}</p>
      )}
    </div>
  );
}

let pen: CanvasRenderingContext2D | null | undefined;

/** CSS pixels that words take in the drawing. */
function broad(text: string, font: string): number {
  pen ??= document.createElement('canvas').getContext('2d');
  if (pen) pen.font = font;
  return pen?.measureText(text).width ?? 8 * text.length;
}

/** Dragged with the mouse, scrolled with wheel and keys. */
function Panned({ label, children }: { readonly label: string; readonly children: ReactNode }): ReactNode {
  return (
    <section
      className="panned"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it is scrolled from the keyboard too
      tabIndex={0}
      aria-label={label}
      onPointerDown={(event) => {
        if ((event.target as Element).closest('a, [role=link]')) return;
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        if (event.buttons !== 1 || !event.currentTarget.hasPointerCapture(event.pointerId)) return;
        event.currentTarget.scrollBy(-event.movementX, -event.movementY);
      }}
    >
      {children}
    </section>
  );
}

interface RowProps {
  readonly step: GraphStep;
  readonly laid: LaidWays['rows'][number] | undefined;
  readonly width: number;
  readonly first: boolean;
  readonly open: () => void;
}

function Row({ step, laid, width, first, open }: RowProps): ReactNode {
  if (laid === undefined) return null;
  const { state } = step;
  const { top, height, middle } = laid;
  const told = shortened(step.text, width - 60, (text) => broad(text, FONT));
  return (
    // biome-ignore lint/a11y/useSemanticElements: HTML has no link inside a drawing that keeps its keys
    <g
      role="link"
      tabIndex={0}
      className="ways-row"
      onClick={open}
      onKeyDown={(event) => {
        if (event.key !== 'Enter') return;
        // The text has the keys before this one is up, and its step is marked: the Enter would have been typed over it.
        event.preventDefault();
        open();
      }}
    >
      <rect x={0} y={top} width={TEXT + width} height={height} className="ways-hit" />
      {height > PAD + LINE ? <path d={`M${TEXT} ${top + height} h${width}`} className="ways-rule" /> : null}
      {first ? (
        <text x={4} y={middle + 4} className="ways-section">
          {step.section.length > 26 ? `${step.section.slice(0, 25)}…` : step.section}
        </text>
      ) : null}
      <rect x={TEXT - 26} y={top} width={10} height={height} fill={hatch(state)} stroke="#6f6a5d" strokeWidth={0.6}>
        <title>{words.band[state]}</title>
      </rect>
      <text x={TEXT} y={middle + 4} className="ways-label">
        {step.label}
      </text>
      <text x={TEXT + 40} y={middle + 4}>
        {told}
        {told === step.text ? null : <title>{step.text}</title>}
      </text>
    </g>
  );
}

/** An arrow with its answer; one that is shortened is told whole while it is pointed at or has the focus. */
function Edge({ laid, point }: { readonly laid: LaidEdge; readonly point: (laid: LaidEdge | undefined) => void }): ReactNode {
  const { answer, back, points } = laid;
  const [, y] = points.at(-1) ?? [0, 0];
  // From its tip, so that the dashes of arrows that share a lane fall together.
  const path = waysPath([...points].reverse(), 5);
  const cut = answer !== undefined && answer.text !== answer.whole;
  const on = (): void => point(cut ? laid : undefined);
  const off = (): void => point(undefined);
  return (
    <g className={back ? 'ways-edge ways-back' : 'ways-edge'} onPointerEnter={on} onPointerLeave={off}>
      <path d={path} className="ways-reach" />
      <path d={path} strokeDasharray={back ? '5 3' : undefined} />
      <path d={`M${TIP} ${y} l8 -4 v8 z`} className="ways-head" />
      {answer === undefined ? null : (
        <g {...(cut ? { tabIndex: 0, role: 'img', 'aria-label': answer.whole, onFocus: on, onBlur: off } : {})} className="ways-answer">
          <rect x={answer.x - 3} y={answer.y - LINE / 2} width={answer.width + 6} height={LINE} className="ways-hit" />
          <text x={answer.x} y={answer.y + 4} className="ways-note">
            {answer.text}
          </text>
        </g>
      )}
    </g>
  );
}

/** Its words, whole, over whatever is there. */
function Whole({ laid, right }: { readonly laid: LaidEdge; readonly right: number }): ReactNode {
  const { answer } = laid;
  if (answer === undefined) return null;
  return (
    <foreignObject x={answer.x - 8} y={answer.y + LINE / 2} width={Math.max(200, right - answer.x)} height={200} className="ways-whole">
      <p>{answer.whole}</p>
    </foreignObject>
  );
}
