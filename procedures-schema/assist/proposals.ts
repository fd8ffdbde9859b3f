/** Makes edits into a proposal that can be looked at file by file, and lays accepted edits on texts that are still the ones they were made for. */
import type { LibraryFacts } from '../checks/index.ts';
import type { TextEdit } from '../finding.ts';
import { applyEdits } from '../format/index.ts';
import type { ChangedLines, FileEdits, FilePreview, LibraryText, Proposal } from './model.ts';
import { textKey } from './text-key.ts';

/** The texts of all files that the facts were made from, without byte-order marks. */
export function textsOf(library: LibraryFacts): ReadonlyMap<string, string> {
  return new Map([
    ...library.registerFiles.map(({ file }) => [file.source.path, file.source.text] as const),
    ...library.procedures.map(({ file, source }) => [file, source.text] as const),
    ...library.guides.map(({ file, tree }) => [file, tree.source.text] as const),
  ]);
}

/** Edits of files that `texts` does not hold are edits of an empty new file. */
export function proposalOf(title: string, edits: readonly TextEdit[], texts: ReadonlyMap<string, string>): Proposal {
  return {
    ok: true,
    title,
    files: fileEdits(edits, texts).map((own) => ({ ...own, lines: changedLines(texts.get(own.file) ?? '', own.edits) })),
  };
}

/** Files in order of their paths, edits in order of their places. */
export function fileEdits(edits: readonly TextEdit[], texts: ReadonlyMap<string, string>): readonly FileEdits[] {
  const byFile = new Map<string, TextEdit[]>();
  for (const edit of edits) byFile.set(edit.file, [...(byFile.get(edit.file) ?? []), inLinesOf(texts.get(edit.file), edit)]);
  return [...byFile]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([file, own]) => ({ file, base: textKey(texts.get(file) ?? ''), edits: own.sort((a, b) => a.start - b.start || a.end - b.end) }));
}

/** What is put into a file whose lines end in CRLF has lines that end so. */
export function inLinesOf(text: string | undefined, edit: TextEdit): TextEdit {
  return text?.includes('\r\n') && edit.text.includes('\n') ? { ...edit, text: edit.text.replace(/\r?\n/g, '\r\n') } : edit;
}

/** Whole lines before and after, edits on one line together. */
export function changedLines(text: string, edits: readonly TextEdit[]): readonly ChangedLines[] {
  const out: ChangedLines[] = [];
  let group: { start: number; end: number; edits: TextEdit[] } | undefined;
  const close = (): void => {
    if (!group) return;
    const { start, end } = group;
    const before = text.slice(start, end);
    const after = applyEdits(
      before,
      group.edits.map((edit) => ({ ...edit, start: edit.start - start, end: edit.end - start })),
    );
    out.push(onlyChanged(text.slice(0, start).split('\n').length, linesOf(before), linesOf(after)));
    group = undefined;
  };
  for (const edit of edits) {
    const start = text.lastIndexOf('\n', edit.start - 1) + 1;
    const stop = text.indexOf('\n', edit.end);
    const end = stop === -1 ? text.length : stop;
    if (group && start <= group.end) {
      group.end = Math.max(group.end, end);
      group.edits.push(edit);
      continue;
    }
    close();
    group = { start, end, edits: [edit] };
  }
  close();
  return out;
}

/** What is put in behind a line would else be shown with that line, as if it had been changed. */
function onlyChanged(line: number, before: readonly string[], after: readonly string[]): ChangedLines {
  const most = Math.min(before.length, after.length);
  let head = 0;
  while (head < most && before[head] === after[head]) head += 1;
  let tail = 0;
  while (tail < most - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail += 1;
  return { line: line + head, before: before.slice(head, before.length - tail), after: after.slice(head, after.length - tail) };
}

const linesOf = (text: string): readonly string[] => text.split('\n').map((line) => line.replace(/\r$/, ''));

export type Applied =
  | { readonly ok: true; readonly texts: readonly LibraryText[] }
  | { readonly ok: false; readonly stale: readonly string[] };

/** New texts of the files concerned; or the files that changed since, and then nothing at all is done. */
export function applyFileEdits(files: readonly FileEdits[], texts: ReadonlyMap<string, string>): Applied {
  const stale = files.filter(({ file, base }) => textKey(texts.get(file) ?? '') !== base).map(({ file }) => file);
  if (stale.length > 0) return { ok: false, stale };
  return { ok: true, texts: files.map(({ file, edits }) => ({ path: file, text: applyEdits(texts.get(file) ?? '', edits) })) };
}

/** A proposal's files without its lines, to be sent. */
export function editsOf(files: readonly FilePreview[]): readonly FileEdits[] {
  return files.map(({ file, base, edits }) => ({ file, base, edits }));
}
