/** The four signal words of a notice (ANSI Z535.6 and ISO 3864-2 use them) and how they are recognised. Grading is not done here. */
import type { SignalWord } from './tree.ts';

export const SIGNAL_WORDS: readonly SignalWord[] = ['danger', 'warning', 'caution', 'notice'];

export function signalWord(word: string): SignalWord | undefined {
  const folded = word.toLowerCase();
  return SIGNAL_WORDS.find((known) => known === folded);
}

/** Words people type on a fence that plainly mean one of the four. */
const MEANT: Readonly<Record<string, SignalWord>> = {
  warn: 'warning',
  warnings: 'warning',
  cautions: 'caution',
  dangers: 'danger',
  note: 'notice',
  notes: 'notice',
  info: 'notice',
  important: 'notice',
  attention: 'caution',
  notices: 'notice',
};

/** The signal word probably meant; undefined when nothing is near. */
export function nearestSignalWord(word: string): SignalWord | undefined {
  const folded = word.toLowerCase();
  const meant = MEANT[folded];
  if (meant) return meant;
  let best: SignalWord | undefined;
  let least = 3;
  for (const known of SIGNAL_WORDS) {
    const away = distance(folded.slice(0, 20), known);
    if (away < least) [best, least] = [known, away];
  }
  return best;
}

/** Edit distance with swaps of neighbours counted once (Damerau, restricted). */
export function distance(a: string, b: string): number {
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, (before[j - 2] ?? 0) + 1);
      next.push(least);
    }
    before = row;
    row = next;
  }
  return row[b.length] ?? 0;
}

/** "DANGER:", "**Warning:**", "**Caution**:" at the start of a paragraph's line. Group 1 is the word. */
export const SIGNAL_START = /^[*_]{0,2}(danger|warning|caution|notice)[*_]{0,2}\s?:[*_]{0,2}(?=\s|$)/i;
