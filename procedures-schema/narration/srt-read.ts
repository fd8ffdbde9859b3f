/** Reads an SRT file: number, times, lines, a blank line. The form has no standard; what players of the trade take is taken (common practice, no source). */
import type { CaptionFile, CaptionProblem, Cue } from './captions-model.ts';
import { USUAL_SETTINGS } from './cue-settings.ts';
import { srtTimes } from './cue-time-read.ts';

export function readSrt(text: string): CaptionFile {
  const lines = text
    .replace(/^\ufeff/, '')
    .replaceAll('\0', '\ufffd')
    .replace(/\r\n?/g, '\n')
    .split('\n');
  const cues: Cue[] = [];
  const problems: CaptionProblem[] = [];
  const heads = lines.flatMap((line, at) => (line.includes('-->') ? [at] : []));
  heads.forEach((at, index) => {
    const times = srtTimes(lines[at] ?? '');
    if (!times) {
      problems.push({ line: at + 1, message: `"${(lines[at] ?? '').slice(0, 60)}" is no pair of times; the cue is left out.` });
      return;
    }
    const numbered = (line: string | undefined): boolean => /^\s*\d+\s*$/.test(line ?? '');
    const next = heads[index + 1];
    // The number of the next cue is not the last line of this one.
    const end = next === undefined ? lines.length : numbered(lines[next - 1]) ? next - 1 : next;
    const body = lines.slice(at + 1, end).map((line) => line.trimEnd());
    while (body.at(-1) === '') body.pop();
    cues.push({
      id: numbered(lines[at - 1]) ? (lines[at - 1] ?? '').trim() : '',
      start: times.start,
      end: times.end,
      text: body.filter((line) => line !== '').join('\n'),
      settings: USUAL_SETTINGS,
      line: at + 1,
    });
  });
  return { cues, regions: [], problems };
}
