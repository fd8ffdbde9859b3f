/**
 * Which stretch of a printed page is to be painted anew: most keys change a line or two, and letters take the time. Looks at what is drawn, in the
 * order in which it is drawn.
 */
import type { DrawnPage, Op } from '../../publishing/index.ts';

/** Millipoints from the top of the page. */
export interface Band {
  readonly top: number;
  readonly bottom: number;
}

const WHOLE: Band = { top: Number.NEGATIVE_INFINITY, bottom: Number.POSITIVE_INFINITY };

/** Undefined: nothing is. Pages of other sizes differ wholly. */
export function changedBand(before: DrawnPage, now: DrawnPage): Band | undefined {
  if (before === now) return undefined;
  if (before.width !== now.width || before.height !== now.height) return WHOLE;
  const [old, own] = [before.ops.filter(isSeen), now.ops.filter(isSeen)];
  let first = 0;
  while (first < old.length && first < own.length && isSame(old[first] as Op, own[first] as Op)) first += 1;
  let last = 0;
  while (
    last < old.length - first &&
    last < own.length - first &&
    isSame(old[old.length - 1 - last] as Op, own[own.length - 1 - last] as Op)
  )
    last += 1;
  const differing = [...old.slice(first, old.length - last), ...own.slice(first, own.length - last)];
  if (differing.length === 0) return undefined;
  const bands = differing.map(bandOf);
  return { top: Math.min(...bands.map(({ top }) => top)), bottom: Math.max(...bands.map(({ bottom }) => bottom)) };
}

const isSeen = ({ op }: Op): boolean => op === 'text' || op === 'path' || op === 'clip' || op === 'unclip' || op === 'image';

function isSame(one: Op, other: Op): boolean {
  if (one === other) return true;
  if (one.op !== other.op) return false;
  // Most of a page is text that stands elsewhere or is another: told without writing all of it out.
  if (one.op === 'text' && other.op === 'text' && (one.y !== other.y || one.x !== other.x || one.run.length !== other.run.length))
    return false;
  return JSON.stringify(one) === JSON.stringify(other);
}

/** As far as it may reach: no letter is higher or deeper than twice its size. */
function bandOf(op: Op): Band {
  switch (op.op) {
    case 'text':
      return op.turn === undefined ? { top: op.y - 2 * op.size, bottom: op.y + 2 * op.size } : WHOLE;
    case 'path': {
      const heights = op.path.points.filter((_, at) => at % 2 === 1);
      if (heights.length === 0) return { top: 0, bottom: 0 };
      // Corners of a mitred line reach furthest: the limit of a canvas is ten times half its width.
      const more = 5 * (op.stroke?.width ?? 0);
      return { top: Math.min(...heights) - more, bottom: Math.max(...heights) + more };
    }
    case 'image':
      return { top: op.y, bottom: op.y + op.height };
    default:
      return WHOLE;
  }
}
