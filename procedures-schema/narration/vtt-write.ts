/** Cues as a WebVTT file (W3C Candidate Recommendation, 4 April 2019). What they say is for the caller. */
import { cueTime } from './clock.ts';
import type { Seconds } from './model.ts';

export interface WrittenCue {
  readonly id?: string;
  readonly start: Seconds;
  readonly end: Seconds;
  /** Plain words; lines parted by a line feed. */
  readonly text: string;
}

/** `note` is told to whoever opens the file and to no player. */
export function writeVtt(cues: readonly WrittenCue[], note?: string): string {
  const blocks = cues.map(({ id, start, end, text }) => {
    const head = id === undefined ? '' : `${identifier(id)}\n`;
    return `${head}${cueTime(start)} --> ${cueTime(Math.max(end, start + 0.001))}\n${payload(text)}\n`;
  });
  const notes = note === undefined ? [] : [`NOTE ${payload(note).replace(/\n/g, ' ')}\n`];
  return `${['WEBVTT\n', ...notes, ...blocks].join('\n')}`;
}

/** One line without the arrow, as the grammar of an identifier has it. */
const identifier = (id: string): string => id.replace(/[\r\n]+/g, ' ').replaceAll('-->', '->');

/** What would open a tag or end the cue is escaped: no arrow, no blank line. */
const payload = (text: string): string =>
  text
    .replaceAll('\0', '\ufffd')
    .replace(/\r\n?/g, '\n')
    .replace(/\n(?:[^\S\n]*\n)+/g, '\n')
    .trim()
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');
