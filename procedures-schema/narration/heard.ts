/** The words of a caption file with a time for each: by the times inside a cue where it has them, else by length of word. */

import type { DecimalMark } from '../quantities/index.ts';
import type { HeardToken } from './alignment-model.ts';
import type { CaptionFile, Cue } from './captions-model.ts';
import { type CueNode, readCueText } from './cue-text.ts';
import type { Seconds } from './model.ts';
import { APART, spokenWords, tokensOf } from './normal-words.ts';
import { withPoint } from './with-point.ts';

interface TimedWord {
  readonly word: string;
  readonly start: Seconds;
  readonly end: Seconds;
}

/** `mark`: how the captions write numbers. */
export function heardIn(file: CaptionFile, prefixes: ReadonlySet<string>, mark: DecimalMark = 'point'): readonly HeardToken[] {
  const words: TimedWord[] = [];
  let before: Cue | undefined;
  // Players sort by start; a file need not be in order.
  for (const cue of [...file.cues].sort((a, b) => a.start - b.start || a.end - b.end)) {
    // A number in figures never runs on from one cue into the next.
    if (/(?:\d|\bpoint)\s*$/i.test(before?.text ?? '') && /^\s*\d/.test(cue.text))
      words.push({ word: APART, start: cue.start, end: cue.start });
    words.push(...wordsOf(cue, before, mark));
    before = cue;
  }
  return tokensOf(
    words.map(({ word }) => word),
    prefixes,
  ).map((token) => ({ ...token, start: words[token.at]?.start ?? 0, end: words[token.end - 1]?.end ?? 0 }));
}

function wordsOf(cue: Cue, before: Cue | undefined, mark: DecimalMark): TimedWord[] {
  return segments(cue, before).flatMap(({ text, start, end }) => {
    const words = spokenWords(withPoint(text, mark));
    const letters = words.reduce((sum, word) => sum + word.length + 1, 0);
    let at = 0;
    return words.map((word) => {
      const from = start + ((end - start) * at) / letters;
      at += word.length + 1;
      return { word, start: from, end: start + ((end - start) * at) / letters };
    });
  });
}

interface Segment {
  readonly text: string;
  readonly start: Seconds;
  readonly end: Seconds;
}

/** Stretches of a cue between times inside it. */
function segments(cue: Cue, before: Cue | undefined): Segment[] {
  const runs: { text: string; start: Seconds }[] = [{ text: '', start: cue.start }];
  const visit = (nodes: readonly CueNode[]): void => {
    for (const node of nodes) {
      if (node.kind === 'time') runs.push({ text: '', start: node.at });
      else if (node.kind === 'text') (runs.at(-1) as { text: string }).text += node.text;
      // Ruby text is another writing of the words it stands over.
      else if (node.kind !== 'rt') visit(node.children);
    }
  };
  visit(readCueText(rolled(cue, before)));
  return runs.map(({ text, start }, index) => ({ text, start, end: Math.max(start, runs[index + 1]?.start ?? cue.end) }));
}

/** Captions that roll show the last line once more above the new one: it was heard once. */
function rolled(cue: Cue, before: Cue | undefined): string {
  const [first, ...others] = cue.text.split('\n');
  const bare = (line: string | undefined): string => (line ?? '').replace(/<[^>]*>/g, '').trim();
  const again = before && others.length > 0 && bare(first) !== '' && bare(first) === bare(before.text.split('\n').at(-1));
  return again && cue.start <= before.end + 0.1 ? others.join('\n') : cue.text;
}
