/** A procedure as it is filmed: its script, and how a recording of it and the text have come apart. */

import { readYaml } from '../../../procedures-schema/index.ts';
import {
  align,
  chapterTexts,
  type Drift,
  driftsOf,
  filmTexts,
  type Passage,
  type Redo,
  readCaptions,
  readRecord,
  recordedChapters,
  redoPlan,
  type Script,
  scriptOf,
  type Take,
} from '../../../procedures-schema/narration/index.ts';
import type { LibraryModel } from '../library-model.ts';

export interface FilmAsk {
  readonly file: string;
  readonly model?: string;
  /** Text of a file of captions. */
  readonly captions?: string;
  /** Text of the library's record of the film that there is. */
  readonly record?: string;
}

export interface Film {
  readonly number: string;
  readonly passages: readonly (Passage & { readonly redo?: Redo })[];
  /** Estimated. */
  readonly seconds: number;
  readonly recording?: {
    readonly seconds: number;
    readonly takes: readonly Pick<Take, 'passage' | 'start' | 'end' | 'confidence' | 'role'>[];
    readonly drifts: readonly Drift[];
  };
  /** What could not be read of captions or record, in words. */
  readonly problems: readonly string[];
}

export function film(model: LibraryModel, ask: FilmAsk): Film | undefined {
  const script = scriptFor(model, ask);
  if (!script) return undefined;
  const captions = ask.captions === undefined ? undefined : readCaptions(ask.captions);
  const read = ask.record === undefined ? undefined : readRecord(readYaml('narration/record.yaml', ask.record).tree);
  const plan = read?.record && redoPlan(script, read.record);
  const alignment = captions && align(script, captions);
  return {
    number: script.number,
    passages: script.passages.map((passage, index) => ({
      ...passage,
      ...(plan?.passages[index] ? { redo: plan.passages[index].redo } : {}),
    })),
    seconds: script.seconds,
    ...(alignment
      ? {
          recording: {
            seconds: alignment.seconds,
            takes: alignment.takes.map(({ passage, start, end, confidence, role }) => ({ passage, start, end, confidence, role })),
            drifts: driftsOf(alignment),
          },
        }
      : {}),
    problems: [
      ...(ask.captions !== undefined && captions === undefined
        ? ['This file holds no captions: no line of it has two times with an arrow between.']
        : []),
      ...(captions?.problems.map(({ line, message }) => `${line}: ${message}`) ?? []),
      ...(read?.problems ?? []),
    ],
  };
}

export interface FilmFilesAsk extends FilmAsk {
  readonly draft: boolean;
}

/** The files that whoever films needs, by name. Times are estimates unless a recording gave them. */
export function filmFiles(model: LibraryModel, ask: FilmFilesAsk): readonly { readonly name: string; readonly text: string }[] {
  const script = scriptFor(model, ask);
  if (!script) return [];
  const captions = ask.captions === undefined ? undefined : readCaptions(ask.captions);
  const texts = filmTexts(script, ask.draft);
  const chapters = captions ? chapterTexts(recordedChapters(align(script, captions)), ask.draft).chapters : texts.chapters;
  const name = [script.number, ask.model, ask.draft ? 'DRAFT' : undefined].filter((part) => part !== undefined).join('-');
  return [
    { name: `${name}-script.md`, text: texts.script },
    { name: `${name}-shots.md`, text: texts.shots },
    { name: `${name}-captions.vtt`, text: texts.captions },
    { name: `${name}-chapters.txt`, text: chapters },
  ];
}

function scriptFor(model: LibraryModel, ask: FilmAsk): Script | undefined {
  const facts = model.procedure(ask.file);
  return facts && scriptOf(facts, model.facts, ask.model === undefined ? {} : { model: ask.model });
}
