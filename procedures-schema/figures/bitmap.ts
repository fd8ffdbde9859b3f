/** PNG and JPEG: how many dots they hold, and whether they are whole as far as that can be seen without making them. Leaves dots to the writer. */
import { readJpeg } from './jpeg/read.ts';
import { type BitmapFacts, type Fault, MOST_DOTS } from './model.ts';
import { readPng } from './png.ts';
import { heldBy } from './sniff.ts';

/** Kept by the bytes themselves: pages are laid out again at every key. */
const known = new WeakMap<Uint8Array, BitmapFacts | { readonly fault: Fault }>();

export function readBitmap(kind: 'png' | 'jpeg', bytes: Uint8Array): BitmapFacts | { readonly fault: Fault } {
  const before = known.get(bytes);
  if (before !== undefined) return before;
  const facts = heldBy(kind, bytes) ?? sized(kind === 'png' ? readPng(bytes) : readJpeg(bytes, MOST_DOTS));
  known.set(bytes, facts);
  return facts;
}

function sized(read: BitmapFacts | { readonly fault: Fault }): BitmapFacts | { readonly fault: Fault } {
  if ('fault' in read || read.columns * read.rows <= MOST_DOTS) return read;
  return {
    fault: {
      says: `It says that it is ${read.columns} by ${read.rows} dots, which is more than a page can hold.`,
      right: 'The picture made smaller: 4000 dots across are enough for any page.',
    },
  };
}
