/** Stretches of Prose: cutting one out, and finding its place in the source. Scanning it is inline.ts. */
import type { Span } from '../finding.ts';
import type { Mark, Prose } from './tree.ts';

export function emptyProse(at: number): Prose {
  return { span: { start: at, end: at }, text: '', segments: [], marks: [] };
}

/** Source offset of the character at `at`; past the end, the place after the last one. */
function sourceAt(prose: Prose, at: number): number {
  let low = 0;
  let high = prose.segments.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((prose.segments[middle]?.at ?? 0) <= at) low = middle;
    else high = middle - 1;
  }
  const segment = prose.segments[low];
  return segment ? segment.source + Math.min(at - segment.at, segment.length) : prose.span.start;
}

/** Where `at`..`end` of the prose's text stands in the source. Markup just inside both ends is included, around them not. */
export function proseSpan(prose: Prose, at: number, end: number): Span {
  const start = sourceAt(prose, Math.max(0, at));
  if (end <= at) return { start, end: start };
  return { start, end: sourceAt(prose, Math.min(end, prose.text.length) - 1) + 1 };
}

/** `at`..`end` as a prose of its own. Marks that cross its ends are cut. */
export function sliceProse(prose: Prose, from: number, to: number): Prose {
  let at = from;
  let end = to;
  while (at < end && /\s/.test(prose.text[at] ?? '')) at++;
  while (end > at && /\s/.test(prose.text[end - 1] ?? '')) end--;
  const segments = prose.segments
    .filter((segment) => segment.at < end && segment.at + segment.length > at)
    .map((segment) => {
      const cut = Math.max(0, at - segment.at);
      const length = Math.min(segment.length, end - segment.at) - cut;
      return { at: segment.at + cut - at, source: segment.source + cut, length };
    });
  const marks = prose.marks
    .filter((mark) => mark.at < end && mark.end > at)
    .map((mark): Mark => ({ ...mark, at: Math.max(mark.at, at) - at, end: Math.min(mark.end, end) - at }));
  return { span: proseSpan(prose, at, end), text: prose.text.slice(at, end), segments, marks };
}
