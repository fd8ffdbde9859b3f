/**
 * Reads a WebVTT file as the standard's parser does (W3C WebVTT: The Web Video Text Tracks Format, section 6): block by block, a bad cue is left
 * out and the rest is read. What stands inside a cue is for `cue-text.ts`.
 */
import type { CaptionFile, CaptionProblem, Cue } from './captions-model.ts';
import { readSettings } from './cue-settings.ts';
import { vttTimes } from './cue-time-read.ts';

/** Undefined: not signed as WebVTT, so not one. */
export function readVtt(text: string): CaptionFile | undefined {
  const input = text
    .replace(/^\ufeff/, '')
    .replaceAll('\0', '\ufffd')
    .replace(/\r\n?/g, '\n');
  if (!/^WEBVTT(?:[ \t\n]|$)/.test(input)) return undefined;
  return new Blocks(input.split('\n')).read();
}

class Blocks {
  private readonly lines: readonly string[];
  private at = 1;
  private readonly cues: Cue[] = [];
  private readonly regions: string[] = [];
  private readonly problems: CaptionProblem[] = [];

  constructor(lines: readonly string[]) {
    this.lines = lines;
  }

  read(): CaptionFile {
    this.header();
    while (this.at < this.lines.length) {
      if (this.lines[this.at] === '') this.at += 1;
      else this.block();
    }
    return { cues: this.cues, regions: this.regions, problems: this.problems };
  }

  /** Lines under the signature, up to a blank one or the first times. */
  private header(): void {
    while (this.at < this.lines.length && this.lines[this.at] !== '' && !this.arrow(this.at)) this.at += 1;
  }

  private arrow(at: number): boolean {
    return this.lines[at]?.includes('-->') ?? false;
  }

  /** Times on the first line, or on the second with an identifier before them; else a region, a style or a comment. */
  private block(): void {
    const first = this.at;
    if (this.arrow(first)) {
      this.at = first + 1;
      this.cue('', first);
      return;
    }
    if (this.arrow(first + 1)) {
      this.at = first + 2;
      this.cue(this.lines[first] ?? '', first + 1);
      return;
    }
    const body = this.body();
    const [kind = '', ...inside] = body;
    if (/^REGION[ \t\n\f\r]*$/.test(kind) && this.cues.length === 0) this.region(inside);
    else if (!/^(?:NOTE|STYLE)(?:[ \t]|$)/.test(kind))
      this.problems.push({ line: first + 1, message: 'This block is no cue: no line of it has two times with an arrow between.' });
  }

  /** Lines up to a blank one or the next times. */
  private body(): string[] {
    const start = this.at;
    while (this.at < this.lines.length && this.lines[this.at] !== '' && !this.arrow(this.at)) this.at += 1;
    return this.lines.slice(start, this.at);
  }

  private cue(id: string, at: number): void {
    const times = vttTimes(this.lines[at] ?? '');
    const text = this.body();
    if (!times) {
      this.problems.push({ line: at + 1, message: `"${(this.lines[at] ?? '').slice(0, 60)}" is no pair of times; the cue is left out.` });
      return;
    }
    const { start, end, rest } = times;
    if (end < start) this.problems.push({ line: at + 1, message: 'The cue ends before it begins.' });
    this.cues.push({ id, start, end, text: text.join('\n'), settings: readSettings(rest, this.regions), line: at + 1 });
  }

  private region(lines: readonly string[]): void {
    let id = '';
    for (const setting of lines.join(' ').split(/[ \t\n\f\r]+/)) {
      const colon = setting.indexOf(':');
      if (colon < 1 || colon === setting.length - 1) continue;
      if (setting.slice(0, colon) === 'id') id = setting.slice(colon + 1);
    }
    this.regions.push(id);
  }
}
