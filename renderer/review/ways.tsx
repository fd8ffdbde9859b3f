/** Every way through a procedure, drawn: steps in order with the worst state each is begun in, and arrows where an answer leads elsewhere. */
import { type ReactNode, useState } from 'react';
import type { GraphEdge, GraphStep } from '../../procedures-schema/review/index.ts';
import { DocumentChoice, useProcedure } from '../parts/document-choice.tsx';
import { Hatches, hatch } from '../parts/hatches.tsx';
import { useAnswer } from '../state/answer.ts';
import { goTo } from '../state/shown.ts';
import { words } from '../words/words.ts';

const ROW = 28;
const TEXT = 230;
const WIDTH = 560;
const RIGHT = 330;
const ZOOMS = [0.5, 0.7, 0.85, 1, 1.25, 1.6, 2] as const;

export function Ways(): ReactNode {
  const file = useProcedure();
  const graph = useAnswer('graph', file === undefined ? undefined : { file });
  const [zoom, setZoom] = useState(3);
  const scale = ZOOMS[zoom] ?? 1;
  const [w, h] = [TEXT + WIDTH + RIGHT, ROW * ((graph?.steps.length ?? 0) + 2)];
  return (
    <div className="one">
      <p className="row">
        <DocumentChoice />
        <button type="button" aria-label={words.smaller} disabled={zoom === 0} onClick={() => setZoom(zoom - 1)}>
          −
        </button>
        <span className="number">{Math.round(scale * 100)} %</span>
        <button type="button" aria-label={words.larger} disabled={zoom === ZOOMS.length - 1} onClick={() => setZoom(zoom + 1)}>
          +
        </button>
        <Legend />
      </p>
      {graph ? (
        <Panned label={words.ways}>
          <svg width={w * scale} height={h * scale} viewBox={`0 0 ${w} ${h}`} className="ways">
            <title>{graph.title}</title>
            <Hatches />
            {graph.edges.map((edge) => (
              <Edge
                key={`${edge.from} ${edge.to}`}
                edge={edge}
                end={graph.steps.length}
                nth={graph.edges.filter((one) => one.from === edge.from && one.note !== '').indexOf(edge)}
              />
            ))}
            {graph.steps.map((step, row) => (
              <Row
                key={step.span.start}
                step={step}
                row={row}
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
  readonly first: boolean;
  readonly open: () => void;
}

function Row({ step, row, first, open }: RowProps): ReactNode {
  const state = step.state ?? 'unknown';
  const y = middle(row);
  const told = step.text.length > 66 ? `${step.text.slice(0, 64)}…` : step.text;
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
      <rect x={0} y={y - ROW / 2} width={TEXT + WIDTH} height={ROW} className="ways-hit" />
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

/** `nth`: of the answers that leave this step, which stand under each other. */
function Edge({ edge, end, nth }: { readonly edge: GraphEdge; readonly end: number; readonly nth: number }): ReactNode {
  const to = edge.to ?? end;
  if (to === edge.from + 1 && edge.note === '') return null;
  const back = to <= edge.from;
  const x = TEXT + WIDTH;
  const [a, b] = [middle(edge.from), middle(to)];
  const bend = Math.min(170, 22 + Math.abs(to - edge.from) * 8);
  return (
    <g className={back ? 'ways-edge ways-back' : 'ways-edge'}>
      <path d={`M${x} ${a} C${x + bend} ${a} ${x + bend} ${b} ${x + 7} ${b}`} strokeDasharray={back ? '5 3' : undefined} />
      <path d={`M${x} ${b} l8 -4 v8 z`} className="ways-head" />
      {edge.note === '' ? null : (
        <text x={x + 12} y={a - 3 + nth * 13} className="ways-note">
          {edge.note.length > 44 ? `${edge.note.slice(0, 43)}…` : edge.note}
        </text>
      )}
    </g>
  );
}

function Legend(): ReactNode {
  return (
    <span className="legend">
      {(['live', 'safe', 'open', 'unknown'] as const).map((state) => (
        <span key={state} className="legend-one">
          <svg width="12" height="16" aria-hidden="true">
            <rect x="1" y="0" width="10" height="16" fill={hatch(state)} stroke="#6f6a5d" strokeWidth="0.6" />
          </svg>{' '}
          {words.band[state]}
        </span>
      ))}
    </span>
  );
}
