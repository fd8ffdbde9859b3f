/** The font files that publishing asks for, from the packages they ship in. Which face is which is said here; what they are for, there. */
import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';

const FILES = {
  regular: 'source-sans/TTF/SourceSans3-Regular.ttf',
  italic: 'source-sans/TTF/SourceSans3-It.ttf',
  bold: 'source-sans/TTF/SourceSans3-Semibold.ttf',
  mono: 'dejavu-fonts-ttf/ttf/DejaVuSansMono.ttf',
  fallback: 'dejavu-fonts-ttf/ttf/DejaVuSans.ttf',
  fallbackBold: 'dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf',
  fallbackItalic: 'dejavu-fonts-ttf/ttf/DejaVuSans-Oblique.ttf',
  boldItalic: 'source-sans/TTF/SourceSans3-SemiboldIt.ttf',
  fallbackBoldItalic: 'dejavu-fonts-ttf/ttf/DejaVuSans-BoldOblique.ttf',
} as const;

export type FontBytes = Readonly<Record<keyof typeof FILES, Uint8Array>>;

type Face = keyof typeof FILES;
const faces = Object.keys(FILES) as Face[];

/** Fails when a package is not installed. */
function placesOf(): Readonly<Record<Face, string>> {
  const { resolve } = createRequire(import.meta.url);
  return Object.fromEntries(faces.map((face) => [face, resolve(FILES[face])])) as Record<Face, string>;
}

/** The same bytes, without what a Buffer can do besides. */
const plain = ({ buffer, byteOffset, byteLength }: Buffer): Uint8Array => new Uint8Array(buffer, byteOffset, byteLength);

/** All of them, to be sent on. Fails when a package is not installed. */
export async function readFonts(): Promise<FontBytes> {
  const places = placesOf();
  const entries = await Promise.all(faces.map(async (face) => [face, plain(await readFile(places[face]))] as const));
  return Object.fromEntries(entries) as FontBytes;
}

/** Each is read when it is first asked for: a guide wants three or four of them, and they are 4.5 MB. Fails at once when a package is not installed. */
export function fontsAsAsked(): FontBytes {
  const places = placesOf();
  const read = new Map<Face, Uint8Array>();
  const one = (face: Face): Uint8Array => {
    const bytes = read.get(face) ?? plain(readFileSync(places[face]));
    read.set(face, bytes);
    return bytes;
  };
  return Object.defineProperties(
    {},
    Object.fromEntries(faces.map((face) => [face, { enumerable: true, get: () => one(face) }])),
  ) as FontBytes;
}
