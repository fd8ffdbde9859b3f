/** The W3C's own WebVTT parser, as a second opinion on what our reader reads and our writer writes. */
import { createRequire } from 'node:module';

export interface SecondCue {
  readonly id: string;
  readonly startTime: number;
  readonly endTime: number;
  readonly text: string;
  readonly direction: string;
  readonly linePosition: number | string;
  readonly lineAlign: string;
  readonly textPosition: number | string;
  readonly positionAlign: string;
  readonly size: number;
  readonly alignment: string;
}

interface Parser {
  readonly WebVTTParser: new () => {
    parse(
      text: string,
      mode: string,
    ): { readonly cues: readonly SecondCue[]; readonly errors: readonly { readonly message: string; readonly line: number }[] };
  };
}

const { WebVTTParser } = createRequire(import.meta.url)('webvtt-parser') as Parser;

export const secondParser = (text: string) => new WebVTTParser().parse(text, 'metadata');
