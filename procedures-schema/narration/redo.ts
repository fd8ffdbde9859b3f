/** What of a film must be made again after an edit: filmed, voiced or only captioned, passage by passage, by content hash. Reads no recording. */
import type { Passage, Script } from './model.ts';
import type { FilmedPassage, FilmRecord } from './recording-record.ts';

export type Redo =
  /** As it was. */
  | 'nothing'
  /** Writing on the screen or in the captions changed. */
  | 'caption'
  /** The words heard changed, the picture did not. */
  | 'voice'
  /** What must be seen changed, or the passage is new. */
  | 'film';

export interface RedoPassage {
  readonly passage: Passage;
  readonly redo: Redo;
  /** It stands elsewhere in the order than when it was filmed: to be cut, not made again. */
  readonly moved: boolean;
}

export interface RedoPlan {
  readonly passages: readonly RedoPassage[];
  /** Keys of what was filmed and is gone from the text: to be cut out. */
  readonly gone: readonly string[];
  /** Chapters with the most that must be done in them. */
  readonly chapters: readonly { readonly title: string; readonly redo: Redo }[];
}

const GRAVITY: readonly Redo[] = ['nothing', 'caption', 'voice', 'film'];

export function redoPlan(script: Script, { passages: filmed }: Pick<FilmRecord, 'passages'>): RedoPlan {
  const partners = partnersOf(script.passages, filmed);
  let last = -1;
  const passages = script.passages.map((passage): RedoPassage => {
    const at = partners.get(passage);
    const moved = at !== undefined && at < last;
    if (at !== undefined) last = Math.max(last, at);
    return { passage, redo: at === undefined ? 'film' : compared(passage, filmed[at] as FilmedPassage), moved };
  });
  const used = new Set(partners.values());
  const titles = [...new Set(script.passages.map(({ sectionTitle }) => sectionTitle))];
  return {
    passages,
    gone: filmed.flatMap(({ key }, index) => (used.has(index) ? [] : [key])),
    chapters: titles.map((title) => ({
      title: title === '' ? script.title : title,
      redo: passages
        .filter(({ passage }) => passage.sectionTitle === title)
        .reduce<Redo>((most, { redo }) => (GRAVITY.indexOf(redo) > GRAVITY.indexOf(most) ? redo : most), 'nothing'),
    })),
  };
}

function compared({ hashes }: Passage, { hashes: before }: FilmedPassage): Redo {
  if (hashes.picture !== before.picture) return 'film';
  if (hashes.voice !== before.voice) return 'voice';
  return hashes.screen === before.screen ? 'nothing' : 'caption';
}

/** The same words first, since a step that was only renumbered has another key; then the same key. Each filmed passage once, in order. */
function partnersOf(passages: readonly Passage[], filmed: readonly FilmedPassage[]): ReadonlyMap<Passage, number> {
  const out = new Map<Passage, number>();
  const free = new Set(filmed.map((_, index) => index));
  const pair = (fits: (passage: Passage, before: FilmedPassage) => boolean): void => {
    for (const passage of passages) {
      if (out.has(passage)) continue;
      const at = [...free].find((index) => fits(passage, filmed[index] as FilmedPassage));
      if (at === undefined) continue;
      out.set(passage, at);
      free.delete(at);
    }
  };
  pair((passage, before) => passage.key === before.key && passage.hashes.voice === before.hashes.voice);
  pair((passage, before) => passage.hashes.voice === before.hashes.voice && passage.hashes.picture === before.hashes.picture);
  pair((passage, before) => passage.key === before.key);
  return out;
}
