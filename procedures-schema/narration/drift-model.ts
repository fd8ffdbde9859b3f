/** Where a recording and its text have come apart, as plain data. Worded here and nowhere else, so that the app, the command and a report say the same. */
import type { Severity, Span } from '../finding.ts';
import type { Seconds } from './model.ts';

export const DRIFT_KINDS = [
  'not-spoken',
  'not-in-text',
  'other-value',
  'other-unit',
  'other-order',
  'model-not-said',
  'notice-missing',
  'notice-late',
  'wait-short',
  'hardly-heard',
] as const;
export type DriftKind = (typeof DRIFT_KINDS)[number];

export interface Drift {
  readonly kind: DriftKind;
  readonly severity: Severity;
  /** Where in the text: keys of the passages concerned, none for what only the recording has. */
  readonly passages: readonly string[];
  readonly span?: Span;
  /** Where in the recording; absent for what it does not have. */
  readonly start?: Seconds;
  readonly end?: Seconds;
  /** Where and what, in one sentence. */
  readonly message: string;
  /** What the recording has. */
  readonly actual?: string;
  /** What the text has. */
  readonly expected?: string;
  readonly why: string;
  /** What would put it right. */
  readonly remedy: string;
}

/** Of each kind: how grave, why it matters, what would be right. Authority: common practice, no source, unless said. */
export const DRIFT: Readonly<Record<DriftKind, { readonly severity: Severity; readonly why: string; readonly remedy: string }>> = {
  'not-spoken': {
    severity: 'warning',
    why: 'Who follows the film leaves the step out.',
    remedy: 'Voice and film the step, or take it out of the text.',
  },
  'not-in-text': {
    severity: 'warning',
    why: 'Who follows the film does what the text no longer has.',
    remedy: 'Cut it from the film, or put it back into the text.',
  },
  'other-value': {
    severity: 'error',
    why: 'Two values for one thing: a bolt is tightened or a limit judged by the wrong one. Captions mishear, so listen before you judge.',
    remedy: 'Listen to the place. If the film says another value, voice it again; if only the caption does, mend the caption.',
  },
  'other-unit': {
    severity: 'error',
    why: 'The same number in another unit is another value.',
    remedy: 'Listen to the place. If the film says another unit, voice it again; if only the caption does, mend the caption.',
  },
  'other-order': {
    severity: 'warning',
    why: 'The order of a procedure is part of what was proved of it.',
    remedy: 'Cut the film into the order of the text.',
  },
  'model-not-said': {
    severity: 'warning',
    why: 'Who has another model does what is not meant for it.',
    remedy: 'Voice the step again with its model.',
  },
  'notice-missing': {
    severity: 'error',
    why: 'A danger is named only to those who read.',
    remedy: 'Voice the notice before its step.',
  },
  'notice-late': {
    severity: 'error',
    why: 'A notice must be heard before the step it guards (ANSI Z535.6 and IEC/IEEE 82079-1 ask it of the page; from memory).',
    remedy: 'Move the notice before its step.',
  },
  'wait-short': {
    severity: 'warning',
    why: 'Who follows the film waits as long as the film does.',
    remedy: 'Say and show how long the wait is, or show it in full.',
  },
  'hardly-heard': {
    severity: 'advice',
    why: 'What was not understood was not compared: the film may say something else here.',
    remedy: 'Listen to the place, and mend the caption.',
  },
};
