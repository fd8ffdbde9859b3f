/**
 * Where in a film each step of a procedure is shown, as addresses with a time (Media Fragments URI 1.0, W3C Recommendation 25 September 2012: `#t=` and
 * seconds). Only what the film says as the text does is linked: a step that changed since is not.
 */
import { align } from './align.ts';
import type { CaptionFile } from './captions-model.ts';
import type { Script, Seconds } from './model.ts';
import type { FilmRecord } from './recording-record.ts';
import { redoPlan } from './redo.ts';

export interface FilmLink {
  readonly key: string;
  readonly section: string;
  /** Of a step; absent for the start of a section. */
  readonly label?: string;
  readonly start: Seconds;
  readonly address: string;
}

/** A take that was heard worse than this is not linked: nobody wants to be led to another place. */
const LEAST_SURE = 0.3;

/** Whole seconds, downwards: a player starts before the word, not in it. */
export const addressAt = (address: string, start: Seconds): string => `${address.split('#')[0]}#t=${Math.max(0, Math.floor(start))}`;

export function filmLinks(script: Script, record: FilmRecord, captions: CaptionFile): readonly FilmLink[] {
  const { address } = record;
  if (address === undefined) return [];
  const same = new Set(
    redoPlan(script, record)
      .passages.filter(({ redo }) => redo === 'nothing' || redo === 'caption')
      .map(({ passage }) => passage.key),
  );
  return align(script, captions).passages.flatMap(({ passage, main }) => {
    if (!main || main.confidence < LEAST_SURE || !same.has(passage.key) || !/^(?:section|step)$/.test(passage.kind)) return [];
    const { key, section, label } = passage;
    return [{ key, section, ...(label === undefined ? {} : { label }), start: main.start, address: addressAt(address, main.start) }];
  });
}
