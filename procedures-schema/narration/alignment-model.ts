/** What an alignment says: where in a recording each passage of a script is spoken, word by word. Plain data. */
import type { Passage, Script, Seconds } from './model.ts';
import type { Token } from './normal-words.ts';

/** A word of the recording. */
export interface HeardToken extends Token {
  readonly start: Seconds;
  readonly end: Seconds;
}

/** One time that a passage is spoken. */
export interface Take {
  readonly passage: number;
  /** Heard tokens, [from, to). */
  readonly from: number;
  readonly to: number;
  readonly start: Seconds;
  readonly end: Seconds;
  /** Share of the passage's words that were heard, by their weight; below zero counts as zero. */
  readonly confidence: number;
  /** For each token of the passage the heard one it was laid on; -1: none. */
  readonly laidOn: readonly number[];
  /** main: the passage's own place. retake: read once more before going on. stray: again where the text has it not. */
  readonly role: 'main' | 'retake' | 'stray';
}

export interface AlignedPassage {
  readonly passage: Passage;
  readonly tokens: readonly Token[];
  readonly main?: Take;
}

export interface Alignment {
  readonly script: Script;
  readonly heard: readonly HeardToken[];
  readonly passages: readonly AlignedPassage[];
  /** All takes in the order of the recording. */
  readonly takes: readonly Take[];
  /** Heard tokens that belong to no take, [from, to), in order. */
  readonly rest: readonly { readonly from: number; readonly to: number }[];
  /** End of the last cue. */
  readonly seconds: Seconds;
}
