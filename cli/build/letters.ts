/**
 * `npm run letters`: asks the font library about the common letters of the shipped faces and writes what a layout needs to know of them to
 * publishing/layout/letters/learned.json. Due when a font package or the list of common letters changes; a test says so.
 */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readFonts } from '../../electron/host/files/index.ts';
import { faces, learnedFrom } from '../../publishing/layout/index.ts';

const fonts = await readFonts();
const learned = faces.map((face) => learnedFrom(face, fonts[face]));
writeFileSync(
  fileURLToPath(new URL('../../publishing/layout/letters/learned.json', import.meta.url)),
  `${JSON.stringify(learned, null, 2)}\n`,
);
