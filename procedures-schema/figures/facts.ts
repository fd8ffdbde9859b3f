/** The facts of a figure from its file: one pure function, asked once where the file is read. Judges nothing; that is for the checks. */
import { readBitmap } from './bitmap.ts';
import type { FigureFacts, FigureFile } from './model.ts';
import { readSvg, wordsOf } from './svg/drawing.ts';

/** A dot of a bitmap in thousandths of a point: 96 to an inch, the web's rule for pictures that say nothing. */
const DOT = 750;

export function figureFacts(file: FigureFile): FigureFacts {
  if (file.kind === 'svg') {
    const read = readSvg(file.source);
    if ('fault' in read) return { kind: 'svg', fault: read.fault };
    const { width, height } = read.drawing;
    return { kind: 'svg', width, height, ...wordsOf(read.drawing) };
  }
  const read = readBitmap(file.kind, file.bytes);
  if ('fault' in read) return { kind: file.kind, fault: read.fault };
  return { kind: file.kind, width: read.columns * DOT, height: read.rows * DOT };
}
