/**
 * The border of narration: the script of one procedure as it is spoken, shown and filmed, with estimated times. Plain data. Made by `script.ts`;
 * what a recording did with it is in `recording-model.ts`.
 */
import type { Span } from '../finding.ts';
import type { DecimalMark } from '../quantities/index.ts';

/** Seconds, with a fraction. Estimated until they come from a recording. */
export type Seconds = number;

export type PassageKind =
  /** What the film is about. */
  | 'title'
  /** What must be at hand. */
  | 'needs'
  /** Running text of a prose section. */
  | 'remark'
  /** A section's title. */
  | 'section'
  | 'notice'
  | 'step'
  /** One way on from a step, its condition first. */
  | 'branch'
  | 'end';

/** One thing said in one breath, with what is seen meanwhile. */
export interface Passage {
  /** Names it in this script: "renew-the-seal 24", "check-the-drift 9 branch 1". */
  readonly key: string;
  readonly kind: PassageKind;
  /** Id of the section; empty before the first. */
  readonly section: string;
  readonly sectionTitle: string;
  /** Label of the step; a notice has that of the step it guards. */
  readonly label?: string;
  readonly fullLabel?: string;
  /** Where its words stand in the procedure. */
  readonly span: Span;
  /** In the order said, written as printed: for captions. */
  readonly said: string;
  /** The same with numbers, units and signs in words: for the voice. */
  readonly spoken: string;
  /** To be shown while it is said: values in both units, callouts, limits. */
  readonly screen: readonly string[];
  readonly shot: Shot;
  /** Seconds the text tells the reader to wait or to keep something up; 0: none. */
  readonly wait: Seconds;
  /** A notice: key of the step that it stands before. */
  readonly guards?: string;
  /** Models, options and serial numbers its condition names: "DL-25". */
  readonly models: readonly string[];
  readonly time: { readonly start: Seconds; readonly speech: Seconds; readonly action: Seconds; readonly total: Seconds };
  readonly hashes: PassageHashes;
}

/** What of a passage a change touches: the words heard, the picture, the writing on it. */
export interface PassageHashes {
  readonly voice: string;
  readonly picture: string;
  readonly screen: string;
}

export interface Shot {
  /** Things that must be seen, by their registered names. */
  readonly see: readonly string[];
  /** Where the camera stands. */
  readonly from: string;
  /** Tools and instruments that must be in the picture. */
  readonly inView: readonly string[];
  /** Figures of the procedure that show the same. */
  readonly figures: readonly string[];
  /** What whoever films must know: the state of the machine when the step is begun. */
  readonly care: string;
}

export interface ScriptChapter {
  readonly title: string;
  readonly start: Seconds;
  readonly end: Seconds;
}

export interface Script {
  readonly number: string;
  readonly title: string;
  readonly revision?: string;
  /** The only model it is for; undefined: all of the procedure. */
  readonly model?: string;
  /** Words a minute that the times were estimated at. */
  readonly pace: number;
  /** How its text, its screens and its captions write numbers, where that is not with a point. */
  readonly mark?: DecimalMark;
  readonly passages: readonly Passage[];
  readonly chapters: readonly ScriptChapter[];
  readonly seconds: Seconds;
  /** SHA-256 over the hashes of all passages. */
  readonly textHash: string;
}
