/**
 * Where remarks stand in the text of today. A remark is pinned to a step's words: it goes with them when the step moves, stays by its label when
 * they were reworded, and says so; it is never dropped.
 */
import type { Margin, MarginLine } from '../assist/index.ts';
import type { Span } from '../finding.ts';
import { likeness } from './pair-up.ts';
import type { Remark } from './record.ts';

export interface Pinned {
  readonly remark: Remark;
  /** Index in the record. */
  readonly index: number;
  /** lost: neither the words nor anything like them are in the text any more. */
  readonly how: 'same words' | 'reworded' | 'lost';
  readonly label?: string;
  readonly line?: number;
  readonly span?: Span;
}

/** The words that a remark on this step is pinned to. */
export const wordsOfLine = (line: MarginLine): string => line.readings.map(({ text }) => text).join(' ');

export function pinsOf(remarks: readonly Remark[], lines: Margin['lines']): readonly Pinned[] {
  return remarks.map((remark, index): Pinned => {
    const same = lines.filter((line) => wordsOfLine(line) === remark.words);
    const own = same.find(({ fullLabel }) => fullLabel === remark.label) ?? same[0];
    if (own) return { remark, index, how: 'same words', label: own.fullLabel, line: own.line, span: own.span };
    const near = nearest(remark, lines);
    return near
      ? { remark, index, how: 'reworded', label: near.fullLabel, line: near.line, span: near.span }
      : { remark, index, how: 'lost' };
  });
}

/** The step most like the words once were; the one with the old label wins when it is as like. */
function nearest(remark: Remark, lines: Margin['lines']): MarginLine | undefined {
  const words = (text: string): ReadonlySet<string> => new Set(text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []);
  const was = words(remark.words);
  let best: MarginLine | undefined;
  let most = 0.5;
  for (const line of lines) {
    const share = likeness(was, words(wordsOfLine(line))) + (line.fullLabel === remark.label ? 0.1 : 0);
    if (share > most) [best, most] = [line, share];
  }
  return best;
}
