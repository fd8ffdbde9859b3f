/** The states of the energy band as patterns that are told apart without color: those of the printed page, so that nobody learns them twice. */
import type { ReactNode } from 'react';
import type { ShownBand } from '../../procedures-schema/index.ts';
import { words } from '../words/words.ts';

const BANDS: readonly ShownBand[] = ['live', 'cut', 'safe', 'open', 'unknown'];

export const hatch = (state: ShownBand): string => (state === 'safe' ? '#237a52' : `url(#hatch-${state})`);

/** Drawn once a drawing. */
export function Hatches(): ReactNode {
  return (
    <defs>
      <pattern id="hatch-live" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect width="6" height="6" fill="#fae2de" />
        <rect width="2.6" height="6" fill="#b22222" />
      </pattern>
      <pattern id="hatch-cut" width="10" height="10" patternUnits="userSpaceOnUse">
        <rect width="10" height="10" fill="#ffde8c" />
        <rect width="5" height="5" fill="#784800" />
        <rect x="5" y="5" width="5" height="5" fill="#784800" />
      </pattern>
      <pattern id="hatch-open" width="6" height="6" patternUnits="userSpaceOnUse">
        <rect width="6" height="6" fill="#e1ecf4" />
        <rect width="6" height="2.4" fill="#005387" />
      </pattern>
      <pattern id="hatch-unknown" width="6" height="6" patternUnits="userSpaceOnUse">
        <rect width="6" height="6" fill="#ffffff" />
        <path d="M0 0L6 6M6 0L0 6" stroke="#3f4347" strokeWidth="1.1" />
      </pattern>
    </defs>
  );
}

/** One state as a small field of its pattern; the first of a list brings the patterns with it. */
export const Swatch = ({ state, first }: { readonly state: ShownBand; readonly first: boolean }): ReactNode => (
  <svg width="14" height="14" aria-hidden="true">
    {first ? <Hatches /> : null}
    <rect x="1" y="1" width="12" height="12" fill={hatch(state)} stroke="#6f6a5d" strokeWidth="0.6" />
  </svg>
);

/** What each pattern means. "Made safe" alone would be read as a word about the machine. */
export function BandLegend(): ReactNode {
  return (
    <span className="legend">
      <span>{words.bandMeans}</span>
      {BANDS.map((state, index) => (
        <span key={state} className="legend-one">
          <svg width="16" height="16" aria-hidden="true">
            {index === 0 ? <Hatches /> : null}
            <rect x="4" y="0" width="10" height="16" fill={hatch(state)} stroke="#6f6a5d" strokeWidth="0.6" />
          </svg>{' '}
          {words.band[state]}
        </span>
      ))}
    </span>
  );
}
