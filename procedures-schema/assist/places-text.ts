/** Registered names in a stretch of running text, whatever their form; and the sides of a bracket's address. */
import type { Span } from '../finding.ts';
import { foldWords, type Names, type Thing } from '../registers/index.ts';
import type { Named } from './model.ts';

export interface Mention {
  readonly thing: Thing;
  readonly at: number;
  readonly end: number;
}

/** Longest names first, left to right; names that may be two things are left out. */
export function mentionsIn(text: string, names: Names): readonly Mention[] {
  const words = foldWords(text);
  const folded = words.map(({ word }) => word);
  const out: Mention[] = [];
  for (let index = 0; index < words.length; ) {
    const found = names.match(folded, index);
    if (!found) {
      index += 1;
      continue;
    }
    const [thing, ...others] = found.things;
    const first = words[index];
    const last = words[index + found.length - 1];
    if (thing && others.length === 0 && first && last) out.push({ thing, at: first.at, end: last.end });
    index += found.length;
  }
  return out;
}

/** A thing as what may be asked for. Measurements, roles and sections belong to one file, a procedure is its number. */
export function namedOf(thing: Thing, file: string, sectionId: (title: string) => string | undefined): Named | undefined {
  switch (thing.kind) {
    case 'measurement':
    case 'role':
      return { kind: thing.kind, file, name: thing.name };
    case 'procedure':
      return { kind: 'document', number: thing.name };
    case 'section': {
      const id = sectionId(thing.name);
      return id === undefined ? undefined : { kind: 'section', file, id, title: thing.name };
    }
    default:
      return { kind: 'thing', thing: thing.kind, name: thing.name, ...(thing.family === undefined ? {} : { family: thing.family }) };
  }
}

/** Where `part` stands in the source of a span, found after `from` characters of it; undefined where it is broken over lines. */
export function partSpan(source: string, span: Span, part: string, from = 0): Span | undefined {
  const at = source.slice(span.start, span.end).indexOf(part, from);
  return at === -1 ? undefined : { start: span.start + at, end: span.start + at + part.length };
}
