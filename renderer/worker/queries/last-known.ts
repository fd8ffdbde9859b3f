/**
 * What is listed of a procedure whose front matter cannot be read just now, mostly because somebody types in it: what was last known of it, so that it
 * stays where it is looked for. It is marked, and nothing of it goes into a proof.
 */
import type { DocumentLine } from './overview.ts';

type Head = Pick<DocumentLine, 'number' | 'title' | 'families' | 'models'>;

export interface Known {
  /** The line as it was told last. */
  readonly before: Partial<Head> | undefined;
  /** Models that stand in the text by the look of its lines. */
  readonly guessed: readonly string[];
  /** Machines of the registers as they are now, by model. */
  readonly family: ReadonlyMap<string, string>;
}

/** `line` itself where nothing of it has to be taken from before. */
export function asLastKnown<L extends Head>(line: L, { before, guessed, family }: Known): L | (L & { readonly unread: true }) {
  const families = line.families.length > 0 ? [] : familiesKept(before, guessed, family);
  const number = line.number === '' ? (before?.number ?? '') : '';
  const titled = line.number === '' || line.title === '';
  // What never said its number goes by the name of its file, which is no title.
  const title = titled && before?.number ? (before.title ?? '') : '';
  if (families.length === 0 && number === '' && title === '') return line;
  return {
    ...line,
    ...(families.length === 0 ? {} : { families }),
    ...(number === '' ? {} : { number }),
    ...(title === '' ? {} : { title }),
    unread: true,
  };
}

/** No machine that the registers no longer have. */
function familiesKept(
  before: Partial<Head> | undefined,
  guessed: readonly string[],
  family: ReadonlyMap<string, string>,
): readonly string[] {
  const now = new Set(family.values());
  const kept = (before?.families ?? []).filter((one) => now.has(one));
  return kept.length > 0 ? kept : [...new Set(guessed.flatMap((model) => family.get(model) ?? []))];
}
