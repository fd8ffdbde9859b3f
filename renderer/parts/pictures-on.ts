/** The bitmaps of one page, painted when they are there: at once where they were seen before, so that typing beside a photograph does not make it flicker. */
import type { DrawnPage } from '../../publishing/index.ts';
import { type Decoded, picturesHeld, picturesRead } from '../state/pictures.ts';
import type { ShownPicture } from '../worker/queries/queries.ts';
import type { PictureOf } from './paint-page.ts';

/** Painted once or twice; the second time when what was not there has come. Returns how to call that off. */
export function paintWithPictures(
  page: DrawnPage,
  pictures: readonly ShownPicture[],
  paint: (pictureOf: PictureOf, decoded: Decoded) => void,
): () => void {
  const wanted = [...new Set(page.ops.flatMap((op) => (op.op === 'image' ? [op.image] : [])))].flatMap((image) => pictures[image] ?? []);
  const of =
    (decoded: Decoded): PictureOf =>
    (image) =>
      decoded.get(pictures[image]?.path ?? '');
  const there = picturesHeld(wanted);
  paint(of(there), there);
  let off = false;
  if (there.size < wanted.length)
    void picturesRead(wanted).then((all) => {
      if (!off && all.size > there.size) paint(of(all), all);
    });
  return () => {
    off = true;
  };
}
