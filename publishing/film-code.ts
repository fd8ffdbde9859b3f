/** QR codes (ISO/IEC 18004) as vector squares in a drawing. The only user of the package that makes the squares; where a code leads is for the caller. */
import encodeQR from 'qr';

/** Blank modules round a code: the standard wants four. */
const QUIET = 4;

export interface CodeSquares {
  /** Modules a side, blank margin included. */
  readonly side: number;
  /** Path data of the dark squares; one unit is one module. */
  readonly path: string;
}

/** Level M of the standard: about 15 percent of a code may be dirty or torn, as paper in a workshop is. */
export function codeSquares(text: string): CodeSquares {
  const rows = encodeQR(text, 'raw', { ecc: 'medium', border: QUIET });
  const path = rows.flatMap((row, y) =>
    row.flatMap((dark, x) => {
      if (!dark || row[x - 1]) return [];
      // A run of dark squares is one rectangle, so that no hair line shows between them.
      let end = x;
      while (row[end]) end += 1;
      return [`M${x} ${y}h${end - x}v1h${x - end}z`];
    }),
  );
  return { side: rows.length, path: path.join('') };
}
