/**
 * Where remarks stand in the text of today. A remark is pinned to words: it goes with them when they move, stays by its label when they were
 * changed, and says so; it is never dropped.
 */
import type { Span } from '../finding.ts';
import { likeness } from './pair-up.ts';
import type { PinLine } from './pin-lines.ts';
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

export function pinsOf(remarks: readonly Remark[], lines: readonly PinLine[]): readonly Pinned[] {
  return remarks.map((remark, index): Pinned => {
    const same = lines.filter(({ words }) => words === remark.words);
    const own = same.find(({ label }) => label === remark.label) ?? same[0];
    if (own) return { remark, index, how: 'same words', label: own.label, line: own.line, span: own.span };
    const near = nearest(remark, lines);
    return near ? { remark, index, how: 'reworded', label: near.label, line: near.line, span: near.span } : { remark, index, how: 'lost' };
  });
}

/** The line most like the words once were; the one with the old label wins when it is as like. */
function nearest(remark: Remark, lines: readonly PinLine[]): PinLine | undefined {
  const words = (text: string): ReadonlySet<string> => new Set(text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []);
  const was = words(remark.words);
  let best: PinLine | undefined;
  let most = 0.5;
  for (const line of lines) {
    const share = likeness(was, words(line.words)) + (line.label === remark.label ? 0.1 : 0);
    if (share > most) [best, most] = [line, share];
  }
  return best;
}
