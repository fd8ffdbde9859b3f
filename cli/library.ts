/** Opens a library folder and checks it whole. All commands that need a library begin here. */
import path from 'node:path';
import { type LibraryOnDisk, libraryAt, readLibrary } from '../electron/host/files/index.ts';
import { checkLibrary, type Finding, type LibraryFacts, type Severity } from '../procedures-schema/index.ts';
import { CannotRun } from './command.ts';
import { figureFactsOf } from './figures.ts';
import type { Io } from './io.ts';
import { nearest } from './nearest.ts';
import { progress } from './progress.ts';
import { refusalFinding } from './unreadable-file.ts';

export interface Checked {
  readonly disk: LibraryOnDisk;
  readonly facts: LibraryFacts;
  readonly findings: readonly Finding[];
  readonly counts: Readonly<Record<Severity, number>>;
  readonly read: { readonly sentences: number; readonly unread: number };
  /** How many texts were checked. */
  readonly files: number;
  /** One line of a file as it stands, for showing it. */
  readonly lineOf: (file: string, line: number) => string | undefined;
}

export async function openLibrary(folder: string, io: Io): Promise<Checked> {
  const place = path.resolve(io.cwd, folder);
  const disk = await readLibrary(place).catch((error: NodeJS.ErrnoException) => {
    throw new CannotRun(
      error.code === 'ENOENT'
        ? `There is no folder "${folder}": nothing stands at ${place}.`
        : `"${folder}" cannot be read (${error.code}).`,
    );
  });
  if (!disk.paths.includes('library.yaml')) throw new CannotRun(await noLibrary(folder, place, disk));
  const figures = await figureFactsOf(disk);
  const telling = progress(io, 'Checking');
  const report = checkLibrary(disk.texts, disk.paths, { progress: telling.tell, figures });
  telling.end();
  const findings = [...disk.refusals.map(refusalFinding), ...report.findings].sort(byPlace);
  const texts = new Map(disk.texts.map((file) => [file.path, file.text]));
  return {
    disk,
    facts: report.facts,
    findings,
    counts: count(findings),
    read: report.read,
    files: disk.texts.length,
    lineOf: (file, line) =>
      texts
        .get(file)
        ?.replace(/^\uFEFF/, '')
        .split(/\r\n|\n|\r/)[line - 1],
  };
}

/** Why a folder is no library, and the nearest one that is. */
async function noLibrary(folder: string, place: string, { refusals }: LibraryOnDisk): Promise<string> {
  const shut = refusals.find((one) => one.path === '' || one.path === 'library.yaml');
  const named = folder === '.' ? `This folder, ${place},` : `"${folder}"`;
  if (shut !== undefined && !shut.message.includes('ENOTDIR')) return `${named} cannot be read as a library: ${shut.message}`;
  const around = await Promise.all(
    [path.dirname(place), path.dirname(path.dirname(place)), path.join(place, 'sample-procedures')].map((one) => libraryAt(one)),
  );
  const near = around.find((one) => one !== undefined);
  return `${named} is not a library: it has no library.yaml. Give the folder that holds library.yaml, registers/ and procedures/.${near === undefined ? '' : ` One stands at ${near}.`}`;
}

/** The findings that concern one model: those that hold everywhere, and those of its variants. */
export function forModel(checked: Checked, model: string | undefined): Checked {
  if (model === undefined) return checked;
  const name = modelNamed(checked.facts, model);
  const variants = new Set([name]);
  for (const { machines } of checked.facts.procedures)
    for (const { variant } of machines) if (variant.model === name) variants.add(variant.name);
  const findings = checked.findings.filter((finding) => finding.variants.length === 0 || finding.variants.some((one) => variants.has(one)));
  return { ...checked, findings, counts: count(findings) };
}

/** The model as registered; upper and lower case are not told apart. */
export function modelNamed(facts: LibraryFacts, typed: string): string {
  const names = facts.registers.models.map((model) => model.name);
  const found = names.find((name) => name.toLowerCase() === typed.toLowerCase());
  if (found !== undefined) return found;
  const near = nearest(typed, names);
  throw new CannotRun(
    `No model "${typed}" is registered.${near ? ` Did you mean ${near}?` : ''} Registered: ${names.join(', ') || 'none'}.`,
  );
}

function count(findings: readonly Finding[]): Record<Severity, number> {
  const counts = { error: 0, warning: 0, advice: 0 };
  for (const finding of findings) counts[finding.severity] += 1;
  return counts;
}

function byPlace(a: Finding, b: Finding): number {
  if (a.file !== b.file) return a.file < b.file ? -1 : 1;
  const line = a.range.start.line - b.range.start.line;
  if (line !== 0) return line;
  const column = a.range.start.column - b.range.start.column;
  if (column !== 0) return column;
  return a.check < b.check ? -1 : a.check > b.check ? 1 : 0;
}
