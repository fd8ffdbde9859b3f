/** The library as it was issued before: a folder, or a revision that the history of the library keeps. Reads, and says what of it cannot be compared; compares nothing. */
import path from 'node:path';
import { libraryAt } from '../electron/host/files/index.ts';
import { figuresAt, revisionNamed, textsAt } from '../electron/host/history/index.ts';
import { checkLibrary, figureFile, type ProcedureFacts } from '../procedures-schema/index.ts';
import type { ComposeInput } from '../publishing/index.ts';
import { CannotRun } from './command.ts';
import { figuresOf } from './figures.ts';
import type { Io } from './io.ts';
import { type Checked, openLibrary } from './library.ts';
import { type Guide, standInTheWay } from './publish.ts';

type Before = Required<Pick<ComposeInput, 'earlier' | 'earlierFigures'>>;

/** What is printed: each document whose text is held against its earlier one. */
type Documents = readonly (Guide | ProcedureFacts)[];

export async function issueBefore(
  given: string,
  now: Checked,
  documents: Documents,
  figures: ComposeInput['figures'],
  io: Io,
): Promise<Before> {
  if ((await libraryAt(path.resolve(io.cwd, given))) !== undefined) {
    const then = await openLibrary(given, io);
    tell(given, then, documents, io);
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
  const then = checkLibrary(files, paths);
  tell(given, then, documents, io);
  return { earlier: then.facts, earlierFigures: new Map(pictures) };
}

const SHOWN = 5;

/** A page without bars looks like one where nothing changed, so what was not compared is said. */
function tell(given: string, then: Pick<Checked, 'facts' | 'findings'>, documents: Documents, io: Io): void {
  const earlier = [...then.facts.guides, ...then.facts.procedures];
  const found = documents.map(({ head }) => earlier.find((one) => one.head.id === head.id));
  const absent = documents.filter((_, n) => found[n] === undefined).map(({ head }) => head.id);
  const errors = standInTheWay(then.findings, new Set(found.flatMap((one) => (one === undefined ? [] : [one.file]))));
  // What was not read has no number: it may be any of those that are not there.
  const unread = absent.length === 0 ? [] : then.findings.filter(({ check }) => ['unreadable-file', 'front-matter-form'].includes(check));
  const lines = [
    ...new Set([...errors, ...unread].map(({ file, range: { start }, message }) => `${file}:${start.line}:${start.column} ${message}`)),
  ];
  if (absent.length > 0)
    io.err(`--changed-since ${given}: ${absent.join(', ')} cannot be found there, so it was not compared and has no bars.\n`);
  if (lines.length === 0) return;
  io.err(
    `--changed-since ${given}: errors stand in the library as it was. What could not be read there was not compared; bars may be missing or too many.\n`,
  );
  for (const line of lines.slice(0, SHOWN)) io.err(`  ${line}\n`);
  if (lines.length > SHOWN) io.err(`  and ${lines.length - SHOWN} more; see: handsclear check, on that library\n`);
}
