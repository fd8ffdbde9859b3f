/**
 * Chapters measured before, kept for the next pass and for the next state of the same book: a chapter is measured anew only when its blocks changed or
 * when an answer it was given about pages elsewhere would be another now. Knows nothing of how chapters are measured.
 */
import { ImageStore } from './images.ts';
import type { Kit, LayoutNote } from './kit.ts';
import type { MeasuredChapter } from './place.ts';
import { newReferences } from './references.ts';
import { StructureBuilder } from './structure.ts';

type Question = { readonly ask: (kit: Kit) => unknown; readonly answer: unknown };

interface Remembered {
  readonly measured: MeasuredChapter;
  readonly notes: readonly LayoutNote[];
  /** What it asked about the rest of the book while it was measured. */
  readonly questions: ReadonlyMap<string, Question>;
}

/** Pictures are told apart by their object: their bytes are long, and the same object is the same picture. */
const pictures = new WeakMap<object, number>();
let pictureCount = 0;

/** Everything that is said in `value`, as text. */
export const keyOf = (name: string, value: unknown): string =>
  `${name} ${JSON.stringify(value, (field, part) => {
    if (field !== 'image' || typeof part !== 'object' || part === null) return part;
    let number = pictures.get(part);
    if (number === undefined) {
      pictureCount += 1;
      number = pictureCount;
      pictures.set(part, number);
    }
    return number;
  })}`;

/** Elements of chapters measured anew stay until there are this many: then everything is measured once more. */
const mostElements = 400_000;

export class MeasuredMemory {
  /** What was learned about references; grows only. */
  readonly references = newReferences();
  /** Elements of all measures; those of chapters measured anew since have no content and are not written. */
  structure = new StructureBuilder();
  readonly images = new ImageStore();
  private sheet = '';
  private known = new Map<string, Remembered>();
  private used = new Map<string, Remembered>();

  /** Before each pass. Another sheet (paper, type, language) forgets everything; so do chapters that were not asked for in the last pass. */
  begin(sheet: string): void {
    if (sheet !== this.sheet || this.structure.nodes.length > mostElements) {
      this.known = new Map();
      this.structure = new StructureBuilder();
    } else if (this.used.size > 0) this.known = this.used;
    this.used = new Map();
    this.sheet = sheet;
  }

  /** `key` says everything of the chapter that its measure depends on, but for pages. */
  measure(key: string, kit: Kit, make: (kit: Kit) => MeasuredChapter): MeasuredChapter {
    const found = this.known.get(key);
    if (found !== undefined && [...found.questions.values()].every(({ ask, answer }) => ask(kit) === answer)) {
      this.used.set(key, found);
      kit.notes.push(...found.notes);
      return found.measured;
    }
    const questions = new Map<string, Question>();
    const note = <T>(name: string, ask: (kit: Kit) => T): T => {
      const answer = ask(kit);
      questions.set(name, { ask, answer });
      return answer;
    };
    const notes: LayoutNote[] = [];
    const asking: Kit = {
      ...kit,
      notes,
      reserve: (anchor, look) => note(`reserve ${look.face} ${look.size} ${anchor}`, (one) => one.reserve(anchor, look)),
      pageBefore: (anchor) => note(`page ${anchor}`, (one) => one.pageBefore(anchor)),
      away: (near, anchor) => note(`away ${near}\n${anchor}`, (one) => one.away(near, anchor)),
    };
    const remembered = { measured: make(asking), notes, questions };
    this.used.set(key, remembered);
    kit.notes.push(...notes);
    return remembered.measured;
  }
}
