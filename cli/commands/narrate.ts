/** `handsclear narrate`: a procedure as a script to film, with shots, captions and chapters; a recording compared with the text. */
import {
  align,
  captionsText,
  chapterTexts,
  driftsOf,
  FASTEST_PACE,
  filmRecordText,
  filmTexts,
  readCaptions,
  recordedChapters,
  redoPlan,
  type Script,
  SLOWEST_PACE,
  scriptOf,
  shortTime,
  USUAL_PACE,
} from '../../procedures-schema/narration/index.ts';
import { CannotRun, type Command } from '../command.ts';
import { readWhole, samePath, writeWhole } from '../files.ts';
import { recordPlace } from '../film-record.ts';
import { filmsOf } from '../films.ts';
import { modelNamed, openLibrary } from '../library.ts';
import { blocking, mustHaveEdition, notThere, procedureNamed, refuse } from '../publish.ts';
import { driftText, redoText } from '../report/drift.ts';

export const narrate: Command = {
  name: 'narrate',
  summary: 'write the script of a procedure for a film, and compare a recording with the text',
  operands: ['<procedure>'],
  options: [
    { name: 'library', value: 'FOLDER', help: 'the library it stands in (here, if not given)' },
    { name: 'model', value: 'M', help: 'a film for one model; labels stay those of the full procedure' },
    { name: 'to', value: 'FOLDER', help: 'the folder to write into; it is made when it is not there' },
    { name: 'pace', value: 'N', help: `words a minute of the voice, ${SLOWEST_PACE} to ${FASTEST_PACE} (${USUAL_PACE}, if not given)` },
    { name: 'recording', value: 'FILE', help: 'captions of a recording (.vtt, .srt): says where it has come apart from the text' },
    { name: 'draft', help: 'write it in spite of errors, marked "DRAFT: NOT FOR FIELD USE"' },
  ],
  about:
    'Checks the library, then writes script.md (what the voice reads: notices first, conditions before actions, numbers and units in words), shots.md, chapters.txt, captions.vtt and chapters.vtt, with estimated times. With --recording it aligns the captions with the text, reports where they differ, and writes chapters with the times of the recording and film.yaml, a record to be put into the narration folder of the library; one that somebody has worked on is left as it is, and the new one written beside it. A film recorded there already is compared by content hash: what must be filmed, voiced or captioned again. Exit 0: written. Exit 1: errors stand in the way, or the recording says something else than the text. Exit 2: it could not run.',
  examples: [
    { line: 'handsclear narrate OM-3140 --library sample-procedures --to film', does: 'a script for all models' },
    {
      line: 'handsclear narrate OM-3140 --library sample-procedures --model DL-25 --recording lip.vtt --to film',
      does: 'a film for one model, compared with the text',
    },
  ],
  async run({ operands, values, flags }, io) {
    const asked = operands[0] as string;
    const { to } = values;
    if (to === undefined) throw new CannotRun('narrate wants --to FOLDER: where the files go.');
    const pace = values.pace === undefined ? USUAL_PACE : Number(values.pace);
    if (!(pace >= SLOWEST_PACE && pace <= FASTEST_PACE))
      throw new CannotRun(`--pace wants a number from ${SLOWEST_PACE} to ${FASTEST_PACE}, not "${values.pace}".`);
    const recording = values.recording === undefined ? undefined : readCaptions(captionsText(readWhole(io.cwd, values.recording)));
    if (values.recording !== undefined && recording === undefined)
      throw new CannotRun(`"${values.recording}" holds no captions: no line of it has two times with an arrow between.`);
    const checked = await openLibrary(values.library ?? '.', io);
    const procedure = procedureNamed(checked, asked, io);
    if (procedure === undefined) throw notThere(checked.facts, asked, 'procedure');
    const model = values.model === undefined ? undefined : modelNamed(checked.facts, values.model);
    mustHaveEdition(procedure, checked.facts, model);
    const draft = flags.has('draft');
    const found = blocking(checked, new Set([procedure.file]));
    if (found.length > 0 && !draft) {
      refuse(checked, found, asked, to, io);
      return 1;
    }
    const script = scriptOf(procedure, checked.facts, { pace, ...(model === undefined ? {} : { model }) });
    const write = (name: string, text: string): void => writeWhole({ cwd: io.cwd, library: checked.disk.root }, `${to}/${name}`, text);
    const files = filesOf(script, draft);
    const lost = files.find(([name]) => values.recording !== undefined && samePath(io.cwd, values.recording, `${to}/${name}`));
    if (lost !== undefined)
      throw new CannotRun(
        `The script would be written over the recording's captions, ${values.recording}. Give another folder. Nothing was written.`,
      );
    for (const [name, text] of files) write(name, text);
    const steps = script.passages.filter(({ kind }) => kind === 'step').length;
    io.out(`${to}: script of ${steps} steps, about ${shortTime(script.seconds)} (estimated)${draft ? ', draft' : ''}.\n`);
    for (const { record } of await filmsOf(checked.disk, io))
      if (record.procedure === script.number && record.model === model)
        io.out(`\nSince the film ${record.number} was made:\n${redoText(redoPlan(script, record))}`);
    if (recording === undefined) return 0;
    for (const { line, message } of recording.problems) io.err(`${values.recording}:${line} ${message}\n`);
    const alignment = align(script, recording);
    const drifts = driftsOf(alignment);
    const { chapters, chapterCues } = chapterTexts(recordedChapters(alignment), draft);
    write('recorded-chapters.txt', chapters);
    write('recorded-chapters.vtt', chapterCues);
    const record = filmRecordText(script, draft);
    const { name, told } = recordPlace(io.cwd, to, record);
    write(name, record);
    if (told !== undefined) io.err(`${told}\n`);
    write('drift.json', `${JSON.stringify(drifts, undefined, 2)}\n`);
    io.out(`\n${values.recording}, ${shortTime(alignment.seconds)} long, compared with the text:\n\n${driftText(drifts, io.width)}`);
    return drifts.some(({ severity }) => severity === 'error') ? 1 : 0;
  },
};

function filesOf(script: Script, draft: boolean): readonly (readonly [string, string])[] {
  const { script: read, shots, captions, chapters, chapterCues } = filmTexts(script, draft);
  return [
    ['script.md', read],
    ['shots.md', shots],
    ['chapters.txt', chapters],
    ['captions.vtt', captions],
    ['chapters.vtt', chapterCues],
  ];
}
