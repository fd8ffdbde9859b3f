/** A book against its earlier issue: which chapter is compared with which, and what was dropped. What of two texts is marked: changes.ts. */
import type { Chapter, Flow } from '../book.ts';
import { changedSections, movedAnchors, withChanges } from './changes.ts';

/** A book as it was. `whole`: all of it is known, and not only its procedures. */
export interface Issue {
  readonly chapters: readonly Chapter[];
  readonly whole: boolean;
}

const named = (chapters: readonly Chapter[], { anchor }: Chapter): Chapter | undefined =>
  chapters.find((one) => one.anchor !== undefined && one.anchor === anchor);

/** A procedure that is new has no bars: all of it is new, and the record says so. Other pages that are new have them. */
export function markedSince(chapters: readonly Chapter[], issue: Issue | undefined): readonly Chapter[] {
  if (issue === undefined) return chapters;
  const beforeOf = (chapter: Chapter): Flow | undefined =>
    named(issue.chapters, chapter)?.blocks ?? (issue.whole && chapter.number === undefined ? [] : undefined);
  const texts = chapters.flatMap((chapter) => {
    const before = beforeOf(chapter);
    return before === undefined ? [] : [[chapter.blocks, before] as const];
  });
  const moved = movedAnchors(texts);
  return chapters.map((chapter) => {
    const before = chapter.unlisted ? undefined : beforeOf(chapter);
    return before === undefined ? chapter : { ...chapter, blocks: withChanges(chapter.blocks, before, moved) };
  });
}

/** One line of the record of what changed. */
export interface Told {
  readonly chapter: Chapter;
  readonly kind: 'new' | 'changed' | 'dropped';
  /** Revision that it is compared with. */
  readonly since?: string;
  /** Titles of the sections that hold a mark; the empty one is what stands before the first. */
  readonly sections: readonly string[];
  /** Titles of sections that are gone. */
  readonly gone: readonly string[];
}

/** Every procedure, and other pages where they changed; then what is no longer there. */
export function toldSince(chapters: readonly Chapter[], { chapters: before, whole }: Issue): readonly Told[] {
  const here = chapters.flatMap((chapter): Told[] => {
    const was = named(before, chapter);
    if (was === undefined) return chapter.number === undefined ? [] : [{ chapter, kind: 'new', sections: [], gone: [] }];
    const sections = changedSections(chapter.blocks);
    const titles = headings(chapter.blocks);
    const gone = chapter.number === undefined ? [] : [...headings(was.blocks)].filter((title) => !titles.has(title));
    if (chapter.number === undefined && sections.length === 0) return [];
    return [{ chapter, kind: 'changed', ...(was.revision === undefined ? {} : { since: was.revision }), sections, gone }];
  });
  const dropped = before.filter((chapter) => whole && chapter.number !== undefined && named(chapters, chapter) === undefined);
  return [...here, ...dropped.map((chapter): Told => ({ chapter, kind: 'dropped', sections: [], gone: [] }))];
}

const headings = (blocks: Flow): ReadonlySet<string> => new Set(blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : [])));
