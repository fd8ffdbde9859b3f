/** Everything whoever films is given, as texts by kind; a draft says so in each of them wherever somebody reads or sees it. Names no files. */

import { readYaml } from '../format/index.ts';
import { captionCues, estimatedSpans } from './caption-cues.ts';
import type { Script, ScriptChapter } from './model.ts';
import { type FilmRecord, readRecord, recordText, writeRecord } from './recording-record.ts';
import { chapterList, scriptMarkdown, shotsMarkdown } from './script-text.ts';
import { type WrittenCue, writeVtt } from './vtt-write.ts';

/** The same words as on every page of a draft that is printed. */
export const FILM_DRAFT = 'DRAFT: NOT FOR FIELD USE';
const ESTIMATED = 'All times are estimates. Align a recording to get real ones.';

export interface FilmTexts {
  readonly script: string;
  readonly shots: string;
  readonly captions: string;
  readonly chapters: string;
  /** The chapters as cues. */
  readonly chapterCues: string;
}

export function filmTexts(script: Script, draft: boolean): FilmTexts {
  const { chapters, chapterCues } = chapterTexts(script.chapters, draft, ESTIMATED);
  const captions = captionCues(estimatedSpans(script));
  return {
    script: headed(scriptMarkdown(script), draft),
    shots: headed(shotsMarkdown(script), draft),
    // A note at the head of captions is seen by no viewer: each of them says it.
    captions: writeVtt(draft ? captions.map((cue) => ({ ...cue, text: `${cue.text}\n${FILM_DRAFT}` })) : captions, noted(draft, ESTIMATED)),
    chapters,
    chapterCues,
  };
}

export function chapterTexts(
  chapters: readonly ScriptChapter[],
  draft: boolean,
  note?: string,
): Pick<FilmTexts, 'chapters' | 'chapterCues'> {
  const cues = chapters.map(({ title, start, end }): WrittenCue => ({ start, end, text: draft ? `${title} (${FILM_DRAFT})` : title }));
  return { chapters: headed(chapterList(chapters), draft), chapterCues: writeVtt(cues, noted(draft, note)) };
}

const DRAFT_RECORD = `# ${FILM_DRAFT}\n`;

/** A record with the number and revision that a film has until somebody gives it its own; made from a draft, it says so to whoever would put it into the library. */
export const filmRecordText = (script: Script, draft: boolean): string =>
  `${draft ? DRAFT_RECORD : ''}${writeRecord(script, untold(script.number, script.revision))}`;

/** Whether a record is, to the letter, one that `filmRecordText` wrote: nobody has given it a number, an address, captions or a word since. */
export function isRecordAsWritten(text: string): boolean {
  const { record } = readRecord(readYaml('film.yaml', text).tree);
  if (record === undefined) return false;
  const written = recordText({ ...record, ...untold(record.procedure, record.procedureRevision) });
  return text === written || text === DRAFT_RECORD + written;
}

const untold = (procedure: string, revision: string | undefined): Pick<FilmRecord, 'number' | 'revision'> => ({
  number: `${procedure}-film`,
  revision: revision ?? '-',
});

const headed = (text: string, draft: boolean): string => (draft ? `${FILM_DRAFT}\n\n${text}` : text);
const noted = (draft: boolean, note?: string): string | undefined =>
  draft ? [FILM_DRAFT, note].filter((part) => part !== undefined).join('. ') : note;
