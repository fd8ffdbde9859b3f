/** Passages as captions to read: short lines, never parted inside a value, each shown for its share of the passage. */
import type { Passage, Script, Seconds } from './model.ts';
import type { WrittenCue } from './vtt-write.ts';

/** Letters a line and lines a caption. Common practice of captioning, no source. */
const LINE = 42;
const LINES = 2;

/** A passage said from `start` for `length` seconds. */
export interface SpokenSpan {
  readonly passage: Passage;
  readonly start: Seconds;
  readonly length: Seconds;
}

/** Spans as estimated. */
export const estimatedSpans = (script: Script): readonly SpokenSpan[] =>
  script.passages.map((passage) => ({ passage, start: passage.time.start, length: passage.time.speech }));

export function captionCues(spans: readonly SpokenSpan[]): readonly WrittenCue[] {
  return spans.flatMap(({ passage, start, length }) => {
    const texts = captionTexts(passage.said);
    const all = texts.reduce((sum, text) => sum + text.length, 0);
    let at = start;
    return texts.map((text, index): WrittenCue => {
      const from = at;
      at += (length * text.length) / Math.max(1, all);
      return { id: texts.length === 1 ? passage.key : `${passage.key} (${index + 1})`, start: from, end: at, text };
    });
  });
}

/** A blank that must not part two lines: between a value and its unit, or in a name with a number. */
const HELD = /(?<=\d) (?=(?:[^\W\d]|[°%µΩ])[^\s]{0,6}(?:\s|$|[.,;:)]))|(?<=\b(?:step|steps|figure|table|section)) (?=\w)/g;

export function captionTexts(said: string): readonly string[] {
  const out: string[] = [];
  for (const sentence of said.split(/(?<=[.!?]) (?=\S)/)) {
    const lines = wrapped(sentence.replace(HELD, '\u00a0'));
    for (let at = 0; at < lines.length; at += LINES)
      out.push(
        lines
          .slice(at, at + LINES)
          .join('\n')
          .replaceAll('\u00a0', ' '),
      );
  }
  return out;
}

/** Lines of at most LINE letters, a word longer than that alone. */
function wrapped(text: string): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > LINE) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? lines : [...lines, line];
}
