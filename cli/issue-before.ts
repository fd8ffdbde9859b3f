/** The library as it was issued before: a folder, or a revision that the history of the library keeps. Reads; compares nothing. */
import path from 'node:path';
import { libraryAt } from '../electron/host/files/index.ts';
import { figuresAt, revisionNamed, textsAt } from '../electron/host/history/index.ts';
import { checkLibrary, figureFile } from '../procedures-schema/index.ts';
import type { ComposeInput } from '../publishing/index.ts';
import { CannotRun } from './command.ts';
import { figuresOf } from './figures.ts';
import type { Io } from './io.ts';
import { type Checked, openLibrary } from './library.ts';

type Before = Required<Pick<ComposeInput, 'earlier' | 'earlierFigures'>>;

export async function issueBefore(given: string, now: Checked, figures: ComposeInput['figures'], io: Io): Promise<Before> {
  if ((await libraryAt(path.resolve(io.cwd, given))) !== undefined) {
    const then = await openLibrary(given, io);
    return { earlier: then.facts, earlierFigures: await figuresOf(then.disk) };
  }
  const { root } = now.disk;
  const revision = await revisionNamed(root, given);
  if (revision === undefined)
    throw new CannotRun(`"${given}" is neither a folder that holds a library nor a revision in the history of this one.`);
  const told = (error: Error): never => {
    throw new CannotRun(`--changed-since ${given}: ${error.message}`);
  };
  const texts = await textsAt(root, revision).catch(told);
  if (!('library.yaml' in texts)) throw new CannotRun(`The revision "${given}" does not hold this library: it has no library.yaml.`);
  const pictures = Object.entries(await figuresAt(root, revision).catch(told)).flatMap(([name, bytes]) => {
    const image = bytes === null ? figures.get(name) : figureFile(name, bytes);
    return image === undefined ? [] : [[name, image] as const];
  });
  const files = Object.entries(texts).map(([name, text]) => ({ path: name, text }));
  const paths = [...files.map((file) => file.path), ...pictures.map(([name]) => name)].sort();
  return { earlier: checkLibrary(files, paths).facts, earlierFigures: new Map(pictures) };
}
