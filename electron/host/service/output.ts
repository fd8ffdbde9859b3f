/** Files that are written for printing and reading, in the library's folder `out`, and the fonts they are set in. */
import { stat } from 'node:fs/promises';
import { Refused } from '../contract/index.ts';
import { readFonts } from '../files/index.ts';
import { insideLibrary, writeWhole } from '../saving/index.ts';
import { fault, type Handlers, type Inner } from './inner.ts';

type Work = Pick<Handlers, 'output.write' | 'output.show' | 'fonts.read'>;

const OUTPUT = /^[\w][\w.-]{0,120}\.(pdf|json|svg|vtt|md|txt)$/;

export async function outputPlace(root: string, name: string): Promise<string> {
  if (!OUTPUT.test(name)) throw new Refused(['noOutputName', name]);
  return insideLibrary(root, `out/${name}`, (own) => /^out\/[^/]+$/.test(own));
}

export const output = (host: Inner): Work => ({
  'output.write': async ({ library, name, base64 }) => {
    const root = host.rootOf(library);
    const file = await outputPlace(root, name);
    await host.turns.run(file, () => writeWhole(file, Buffer.from(base64, 'base64'), host.disk)).catch(fault(['outputUnwritten']));
    return { path: file };
  },

  'output.show': async ({ library, name, how }, caller) => {
    const file = await outputPlace(host.rootOf(library), name);
    const found = await stat(file).catch(() => undefined);
    if (!found?.isFile()) throw new Refused(['noOutput', name]);
    const { shell } = host.options;
    if (shell === undefined) return { address: `/output/${library}/${name}` };
    await shell.show(caller, file, how);
    return {};
  },

  'fonts.read': async () => ({
    faces: Object.fromEntries(Object.entries(await readFonts()).map(([face, bytes]) => [face, Buffer.from(bytes).toString('base64')])),
  }),
});
