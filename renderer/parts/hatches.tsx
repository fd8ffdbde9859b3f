/** The states of the energy band as patterns that are told apart without colour; drawn once a drawing. */
import type { ReactNode } from 'react';

export type Band = 'live' | 'cut' | 'safe' | 'open' | 'unknown';

export const hatch = (state: Band): string => (state === 'safe' ? '#cfe0d5' : `url(#hatch-${state})`);

export function Hatches(): ReactNode {
  return (
    <defs>
      <pattern id="hatch-live" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect width="6" height="6" fill="#f6dccb" />
        <rect width="2.6" height="6" fill="#a8421a" />
      </pattern>
      <pattern id="hatch-cut" width="6" height="6" patternUnits="userSpaceOnUse">
        <rect width="6" height="6" fill="#f5ecd2" />
        <rect width="3" height="6" fill="#8c6200" />
      </pattern>
      <pattern id="hatch-open" width="6" height="6" patternUnits="userSpaceOnUse">
        <rect width="6" height="6" fill="#e3ece6" />
        <circle cx="3" cy="3" r="1.1" fill="#35604a" />
      </pattern>
      <pattern id="hatch-unknown" width="6" height="6" patternUnits="userSpaceOnUse">
        <rect width="6" height="6" fill="#eeeae0" />
        <path d="M0 0L6 6M6 0L0 6" stroke="#5d594d" strokeWidth="0.9" />
      </pattern>
    </defs>
  );
}
