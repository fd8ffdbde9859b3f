/** A recording as a strip of times: each take where it was spoken, sections in turn light and dark, doubtful ones dotted, those out of place in rust. */
import type { ReactNode } from 'react';
import { words } from '../words/words.ts';
import type { Film } from '../worker/queries/queries.ts';
import { clock } from './film-sheet.tsx';

const WIDTH = 1200;
const HEIGHT = 46;
/** Below this confidence a take is doubtful. */
const DOUBT = 0.5;

export function FilmStrip({ film }: { readonly film: Film }): ReactNode {
  const { recording, passages } = film;
  if (!recording || recording.seconds <= 0) return null;
  const x = (seconds: number): number => (seconds / recording.seconds) * WIDTH;
  const sections = [...new Set(passages.map(({ section }) => section))];
  const minutes = Array.from({ length: Math.floor(recording.seconds / 60) + 1 }, (_, index) => index * 60);
  return (
    <figure className="strip">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT + 18}`} width="100%" role="img" aria-label={words.strip}>
        <title>{words.strip}</title>
        <defs>
          <pattern id="doubt" width="5" height="5" patternUnits="userSpaceOnUse">
            <rect width="5" height="5" fill="#fffefb" />
            <circle cx="2.5" cy="2.5" r="1.1" fill="#5f5d55" />
          </pattern>
        </defs>
        <rect x="0" y="0" width={WIDTH} height={HEIGHT} fill="#f1eee6" stroke="#cfcabc" />
        {recording.takes.map((take) => {
          const passage = passages[take.passage];
          const even = sections.indexOf(passage?.section ?? '') % 2 === 0;
          const fill = take.role === 'stray' ? '#a8421a' : take.confidence < DOUBT ? 'url(#doubt)' : even ? '#9dbccf' : '#5b87a3';
          return (
            // biome-ignore lint/a11y/noStaticElementInteractions: the same is in the table below, with its keys
            <rect
              key={`${take.passage} ${take.start}`}
              x={x(take.start)}
              y={take.role === 'main' ? 2 : 12}
              width={Math.max(1.5, x(take.end) - x(take.start))}
              height={take.role === 'main' ? HEIGHT - 4 : HEIGHT - 24}
              fill={fill}
              stroke="#fffefb"
              strokeWidth="0.6"
              onClick={() => document.getElementById(`passage ${take.passage}`)?.scrollIntoView({ block: 'center' })}
            >
              <title>{`${clock(take.start)} ${passage?.fullLabel ?? passage?.sectionTitle ?? ''} (${Math.round(take.confidence * 100)} %)`}</title>
            </rect>
          );
        })}
        {recording.drifts.flatMap((drift) =>
          drift.start === undefined
            ? []
            : [<path key={`${drift.kind}${drift.start}${drift.message}`} d={`M${x(drift.start)} ${HEIGHT} l5 9 h-10 z`} fill="#8a1c10" />],
        )}
        {minutes.map((seconds) => (
          <text key={seconds} x={x(seconds) + 2} y={HEIGHT + 16} fontSize="10" fill="#5f5d55">
            {clock(seconds)}
          </text>
        ))}
      </svg>
    </figure>
  );
}
