/** What could not be printed as asked, for a person at a terminal: the same shape as a finding, and no finding, because it hangs on the paper. */
import { type LibraryFacts, positionAt } from '../../procedures-schema/index.ts';
import type { PrintNote } from '../../publishing/index.ts';
import type { Io } from '../io.ts';
import { labelled, wrap } from './wrap.ts';

const COLUMN = 11;

/** `document`: what stands in front of what has no one place. */
export function notesText(notes: readonly PrintNote[], library: LibraryFacts, document: string, look: Pick<Io, 'width'>): string {
  return notes
    .flatMap((note) => [
      `${placeOf(note, library) ?? document}: note [${note.kind}]`,
      ...wrap(note.message, look.width, '  '),
      ...labelled('right', note.expected, look.width, COLUMN),
      ...labelled('why', note.why, look.width, COLUMN),
      '',
    ])
    .map((line) => `${line}\n`)
    .join('');
}

function placeOf({ file, span }: PrintNote, { procedures, guides }: LibraryFacts): string | undefined {
  const source = [...procedures, ...guides].find((one) => one.file === file)?.tree.source;
  if (file === undefined || source === undefined || span === undefined) return undefined;
  const { line, column } = positionAt(source, span.start);
  return `${file}:${line}:${column}`;
}
