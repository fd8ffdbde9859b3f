/** One change between two states of a document, and how grave changes are. Plain data for whoever lists them. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';

/** What a change touches, gravest first. */
export const WEIGHTS = ['protection', 'limits', 'work', 'scope', 'words'] as const;
export type Weight = (typeof WEIGHTS)[number];

export interface Changed {
  readonly kind:
    | 'step added'
    | 'step removed'
    | 'step moved'
    | 'step does otherwise'
    | 'step reworded'
    | 'notice added'
    | 'notice lost'
    | 'notice changed'
    | 'limit changed'
    | 'entry added'
    | 'entry removed'
    | 'value changed'
    | 'verdict changed'
    | 'revision kept'
    // Of the registers.
    | 'thing added'
    | 'thing gone'
    | 'thing changed'
    // Of a guide.
    | 'document added'
    | 'document dropped'
    | 'document moved'
    | 'document changed'
    | 'text changed';
  readonly weight: Weight;
  /** What it is about: "Check 4", "lip drift on DL-20", "tools", "fastener hub bolt: torque". */
  readonly about: string;
  readonly before?: string;
  readonly after?: string;
  /** Where `span` stands, if not in the text that was compared. */
  readonly file?: string;
  /** In the later state. */
  readonly span?: Span;
  /** In the earlier text. */
  readonly earlierSpan?: Span;
}

/** A procedure with the library that it was read in. */
export interface OneText {
  readonly facts: ProcedureFacts;
  readonly library: LibraryFacts;
}

/** Gravest first, then by place: those of the text, then those of other files. */
export const inWeight = (found: readonly Changed[]): readonly Changed[] =>
  [...found].sort(
    (a, b) =>
      WEIGHTS.indexOf(a.weight) - WEIGHTS.indexOf(b.weight) ||
      Number(a.file !== undefined) - Number(b.file !== undefined) ||
      (a.span?.start ?? 0) - (b.span?.start ?? 0),
  );
