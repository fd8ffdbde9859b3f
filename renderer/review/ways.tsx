/** Every way through a procedure, drawn: steps in order with the worst state each is begun in, and arrows where an answer leads elsewhere. */
import { type ReactNode, useState } from 'react';
import type { GraphEdge, GraphStep } from '../../procedures-schema/review/index.ts';
import { DocumentChoice, useProcedure } from '../parts/document-choice.tsx';
import { BandLegend, Hatches, hatch } from '../parts/hatches.tsx';
import { useRoom } from '../parts/room.ts';
import { useAnswer } from '../state/answer.ts';
import { goTo } from '../state/shown.ts';
import { words } from '../words/words.ts';

const ROW = 28;
const TEXT = 230;
/** The least room for a step's words; more where the window has it. */
const WIDTH = 560;
/** As in review.css. */
const FONT = "14px 'Source Sans 3', 'Segoe UI', sans-serif";
const RIGHT = 330;
const ZOOMS = [0.5, 0.7, 0.85, 1, 1.25, 1.6, 2] as const;

export function Ways(): ReactNode {
  const file = useProcedure();
  const graph = useAnswer('graph', file === undefined ? undefined : { file });
  const [zoom, setZoom] = useState(3);
  const scale = ZOOMS[zoom] ?? 1;
  const [frame, room] = useRoom();
  const longest = Math.max(0, ...(graph?.steps ?? []).map(({ text }) => broad(text))) + 60;
  const width = Math.max(WIDTH, Math.min(longest, room - TEXT - RIGHT - 20));
  const [w, h] = [TEXT + width + RIGHT, ROW * ((graph?.steps.length ?? 0) + 2)];
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
          <svg width={w * scale} height={h * scale} viewBox={`0 0 ${w} ${h}`} className="ways">
            <title>{graph.title}</title>
            <Hatches />
            {graph.edges.map((edge) => (
              <Edge key={`${edge.from} ${edge.to}`} edge={edge} end={graph.steps.length} x={TEXT + width} />
            ))}
            {graph.edges.map((edge) => (
              <EdgeNote
                key={`${edge.from} ${edge.to}`}
                edge={edge}
                nth={graph.edges.filter((one) => one.from === edge.from && one.note !== '').indexOf(edge)}
                x={TEXT + width}
              />
            ))}
            {graph.steps.map((step, row) => (
              <Row
                key={step.span.start}
                step={step}
                row={row}
                width={width}
                first={graph.steps[row - 1]?.section !== step.section}
                open={() => file && goTo(file, step.span.start, step.span.end)}
              />
            ))}
            <text x={TEXT} y={middle(graph.steps.length) + 4} className="ways-label">
              {words.walkEnd}
            </text>
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
function broad(text: string): number {
  pen ??= document.createElement('canvas').getContext('2d');
  if (pen) pen.font = FONT;
  return pen?.measureText(text).width ?? 8 * text.length;
}

/** As many words as there is room for; the rest is told by an ellipsis. */
function fitting(text: string, room: number): string {
  if (broad(text) <= room) return text;
  let end = text.length;
  while (end > 0 && broad(`${text.slice(0, end)}…`) > room) end = Math.max(0, text.lastIndexOf(' ', end - 1));
  return `${text.slice(0, end)}…`;
}

const middle = (row: number): number => ROW * (row + 0.7);

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
  readonly row: number;
  readonly width: number;
  readonly first: boolean;
  readonly open: () => void;
}

function Row({ step, row, width, first, open }: RowProps): ReactNode {
  const { state } = step;
  const y = middle(row);
  const told = fitting(step.text, width - 60);
  return (
    // biome-ignore lint/a11y/useSemanticElements: HTML has no link inside a drawing that keeps its keys
    <g
      role="link"
      tabIndex={0}
      className="ways-row"
      onClick={open}
      onKeyDown={(event) => {
        if (event.key === 'Enter') open();
      }}
    >
      <rect x={0} y={y - ROW / 2} width={TEXT + width} height={ROW} className="ways-hit" />
      {first ? (
        <text x={4} y={y + 4} className="ways-section">
          {step.section.length > 26 ? `${step.section.slice(0, 25)}…` : step.section}
        </text>
      ) : null}
      <rect x={TEXT - 26} y={y - ROW / 2} width={10} height={ROW} fill={hatch(state)} stroke="#6f6a5d" strokeWidth={0.6}>
        <title>{words.band[state]}</title>
      </rect>
      <text x={TEXT} y={y + 4} className="ways-label">
        {step.label}
      </text>
      <text x={TEXT + 40} y={y + 4}>
        {told}
      </text>
    </g>
  );
}

const isBack = ({ from, to }: GraphEdge, end: number): boolean => (to ?? end) <= from;

function Edge({ edge, end, x }: { readonly edge: GraphEdge; readonly end: number; readonly x: number }): ReactNode {
  const to = edge.to ?? end;
  if (to === edge.from + 1 && edge.note === '') return null;
  const back = isBack(edge, end);
  const [a, b] = [middle(edge.from), middle(to)];
  const bend = Math.min(170, 22 + Math.abs(to - edge.from) * 8);
  return (
    <g className={back ? 'ways-edge ways-back' : 'ways-edge'}>
      <path d={`M${x} ${a} C${x + bend} ${a} ${x + bend} ${b} ${x + 7} ${b}`} strokeDasharray={back ? '5 3' : undefined} />
      <path d={`M${x} ${b} l8 -4 v8 z`} className="ways-head" />
    </g>
  );
}

/** Over all arrows, so that none goes through its words. `nth`: of the answers that leave this step, which stand under each other. */
function EdgeNote({ edge, nth, x }: { readonly edge: GraphEdge; readonly nth: number; readonly x: number }): ReactNode {
  if (edge.note === '') return null;
  return (
    <g className={isBack(edge, Number.POSITIVE_INFINITY) ? 'ways-back' : ''}>
      <text x={x + 12} y={middle(edge.from) - 3 + nth * 13} className="ways-note">
        {edge.note.length > 44 ? `${edge.note.slice(0, 43)}…` : edge.note}
      </text>
    </g>
  );
}
