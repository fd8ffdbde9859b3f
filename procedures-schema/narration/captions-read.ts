/** Reads a caption file by what it says it is: signed as WebVTT, else SRT. */
import type { CaptionFile } from './captions-model.ts';
import { readSrt } from './srt-read.ts';
import { readVtt } from './vtt-read.ts';

/** Undefined: neither, since no line has two times with an arrow between. */
export function readCaptions(text: string): CaptionFile | undefined {
  const vtt = readVtt(text);
  if (vtt) return vtt;
  const srt = readSrt(text);
  return srt.cues.length > 0 ? srt : undefined;
}
