/**
 * Stands in for the reader until it is written: splits prose into sentences and says of each that it was not read. Nothing is
 * guessed, so nothing can be granted safety; the check `sentence-read` and the verdict "not proved" follow from it.
 */
import type { Span } from '../finding.ts';
import type { Prose } from '../format/index.ts';
import { type Family, foldWords, type Measurement, type Names, type Registers, type Thing } from '../registers/index.ts';
import type { Reading, Sentence, ThingUse } from './action.ts';

/** Everything a sentence needs besides its own words. */
export interface ReadingContext {
  readonly names: Names;
  readonly families: readonly Family[];
  readonly registers: Registers;
  readonly language: 'en';
  readonly kind: 'lead' | 'branch' | 'bullet' | 'condition' | 'paragraph';
  /** What "it" stands for coming in. */
  readonly carry?: Thing;
  /** For object bullets: the reading that holds their verb. */
  readonly lead?: Reading;
  readonly override?: { readonly reads: string; readonly because: string; readonly by: string; readonly span: Span };
  readonly measurements: readonly Measurement[];
  readonly roles: readonly string[];
}

/** Part of every cache key. "unwritten": tests that need readings are left out, and say so. */
export const readingVersion: string = 'unwritten';

export function readProse(prose: Prose, context: ReadingContext): Reading {
  const sentences: Sentence[] = [];
  for (const found of prose.text.matchAll(/[^.!?]+(?:[.!?]+(?=\s|$)|[.!?](?=\S)[^.!?]*)*[.!?]*/g)) {
    const lead = found[0].length - found[0].trimStart().length;
    const text = found[0].trim();
    if (text === '') continue;
    const at = found.index + lead;
    const mentions = mentionsIn(text, at, context.names);
    sentences.push({
      status: mentions.length > 0 ? 'unread' : 'remark',
      text,
      at,
      end: at + text.length,
      actions: [],
      unknown: [],
      ambiguous: [],
      mentions,
      ...(mentions.length > 0 ? { why: 'the reader of sentences is not written yet' } : {}),
    });
  }
  return { sentences };
}

function mentionsIn(text: string, offset: number, names: Names): ThingUse[] {
  const words = foldWords(text);
  const folded = words.map(({ word }) => word);
  const out: ThingUse[] = [];
  for (let index = 0; index < words.length; index += 1) {
    const found = names.match(folded, index);
    const thing = found?.things[0];
    const first = words[index];
    const last = found ? words[index + found.length - 1] : undefined;
    if (!found || !thing || !first || !last) continue;
    out.push({ thing, at: offset + first.at, end: offset + last.end });
    index += found.length - 1;
  }
  return out;
}
