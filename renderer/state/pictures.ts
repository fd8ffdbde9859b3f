/** Photographs and other bitmaps as the screen shows them: decoded once, no larger than a screen needs, and only the last few held. */
import type { ShownPicture } from '../worker/queries/queries.ts';
import { figureBytes } from './other-files.ts';

export type Decoded = ReadonlyMap<string, ImageBitmap>;

/** Dots across: as wide as a page is shown. */
const MOST_DOTS = 1600;

/** At five megabytes or so each. */
const MOST_HELD = 24;

interface Held {
  /** What it was decoded from: another file under the same name is another picture. */
  readonly bytes: Uint8Array;
  readonly coming: Promise<ImageBitmap | undefined>;
  bitmap: ImageBitmap | undefined;
}

/** The one used last comes last. */
const held = new Map<string, Held>();

/** Those that are there already. */
export function picturesHeld(wanted: readonly ShownPicture[]): Decoded {
  const there = new Map<string, ImageBitmap>();
  for (const { path } of wanted) {
    const one = held.get(path);
    if (one?.bitmap !== undefined && one.bytes === figureBytes().get(path)) there.set(path, one.bitmap);
  }
  return there;
}

/** All of them, but for those that cannot be decoded: paper says so in their place. */
export async function picturesRead(wanted: readonly ShownPicture[]): Promise<Decoded> {
  const all = await Promise.all(wanted.map(async (one) => [one.path, await read(one)] as const));
  return new Map(all.flatMap(([path, bitmap]) => (bitmap === undefined ? [] : [[path, bitmap] as const])));
}

async function read({ path, columns }: ShownPicture): Promise<ImageBitmap | undefined> {
  const bytes = figureBytes().get(path);
  if (bytes === undefined) return undefined;
  const known = held.get(path);
  const own: Held = known?.bytes === bytes ? known : { bytes, coming: decode(path, bytes, columns), bitmap: undefined };
  held.delete(path);
  held.set(path, own);
  for (const [name] of held) if (held.size > MOST_HELD) held.delete(name);
  own.bitmap = await own.coming;
  return own.bitmap;
}

const decode = (path: string, bytes: Uint8Array, columns: number): Promise<ImageBitmap | undefined> =>
  createImageBitmap(new Blob([bytes as Uint8Array<ArrayBuffer>], { type: /\.png$/i.test(path) ? 'image/png' : 'image/jpeg' }), {
    // Paper shows the dots as they are stored.
    imageOrientation: 'none',
    ...(columns > MOST_DOTS ? { resizeWidth: MOST_DOTS, resizeQuality: 'high' as const } : {}),
  }).catch(() => undefined);
