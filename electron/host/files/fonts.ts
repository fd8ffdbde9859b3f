/** The font files that publishing asks for, from the packages they ship in. Which face is which is said here; what they are for, there. */
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

/** Fails when a package is not installed. */
export async function readFonts(): Promise<FontBytes> {
  const { resolve } = createRequire(import.meta.url);
  const read = async (name: string): Promise<Uint8Array> => new Uint8Array(await readFile(resolve(name)));
  const entries = await Promise.all(Object.entries(FILES).map(async ([face, name]) => [face, await read(name)] as const));
  return Object.fromEntries(entries) as FontBytes;
}
