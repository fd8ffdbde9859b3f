/** The narrated edition: scripts out, recordings compared with the text. Exports only. */
export { captionCues, captionTexts, estimatedSpans } from './caption-cues.ts';
export { cueTime, shortTime } from './clock.ts';
export type * from './model.ts';
export { FASTEST_PACE, SLOWEST_PACE, speechSeconds, USUAL_PACE } from './pace.ts';
export { LONGEST_SHOWN, type ScriptChoice, scriptOf } from './script.ts';
export { chapterList, scriptMarkdown, shotsMarkdown } from './script-text.ts';
export { spokenForm } from './spoken.ts';
export { UNIT_SAYINGS } from './unit-sayings.ts';
export { type WrittenCue, writeVtt } from './vtt-write.ts';
