/** A caption file as it was read, whatever its form: cues with times and words. Plain data. */
import type { Seconds } from './model.ts';

/** How a cue is laid over the picture (WebVTT 3.3); read, and kept for whoever shows it. */
export interface CueSettings {
  readonly vertical: '' | 'rl' | 'lr';
  readonly line: number | 'auto';
  readonly snapToLines: boolean;
  readonly lineAlign: 'start' | 'center' | 'end';
  readonly position: number | 'auto';
  readonly positionAlign: 'auto' | 'line-left' | 'center' | 'line-right';
  readonly size: number;
  readonly align: 'start' | 'center' | 'end' | 'left' | 'right';
  /** Of a region block of the same file. */
  readonly region?: string;
}

export interface Cue {
  readonly id: string;
  readonly start: Seconds;
  readonly end: Seconds;
  /** As it stands in the file, tags included. */
  readonly text: string;
  readonly settings: CueSettings;
  /** Line of the file on which its times stand, from one. */
  readonly line: number;
}

export interface CaptionFile {
  readonly cues: readonly Cue[];
  readonly regions: readonly string[];
  readonly problems: readonly CaptionProblem[];
}

/** What of the file could not be read; the rest was. */
export interface CaptionProblem {
  readonly line: number;
  readonly message: string;
}
