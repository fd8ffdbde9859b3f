/** Makes the folder of a new library with as little in it as can be checked. What is then written into it is the writer's. */
import { mkdir, readdir } from 'node:fs/promises';
import path from 'node:path';
import { type Methods, Refused } from '../contract/index.ts';
import { unfitPath, writeWhole } from '../saving/index.ts';
import { allowedFolder } from './folders.ts';
import { fault, type Inner } from './inner.ts';

type Create = Methods['library.create'];

/** `library.yaml` comes last: without it the folder is no library, so that a crash leaves none that is half made. */
const texts = (publisher: string): readonly (readonly [string, string])[] => [
  ['registers/equipment.yaml', '# Families of machines, their models, and where their energy is cut off.\nfamilies: {}\nmodels: {}\n'],
  ['registers/tools.yaml', '# Tools and test equipment.\ntools: {}\n'],
  // A JSON string is a YAML string.
  ['library.yaml', `# The house style of everything printed from this library.\npublisher: ${JSON.stringify(publisher)}\n`],
];

export async function makeLibrary(host: Inner, { folder, name, publisher }: Create['ask']): Promise<Create['answer']> {
  const unfit = unfitPath(name);
  if (unfit !== undefined || name.includes('/')) throw new Refused(['noFolderName', name], unfit ?? ['nameHoldsSlash']);
  if (publisher.trim() === '' || publisher.length > 200) throw new Refused(['publisher']);
  const place = path.join(await allowedFolder(host, folder), name);
  await mkdir(place).catch(async (error) => {
    if ((error as { code?: unknown }).code !== 'EEXIST') return fault(['nothingMade'])(error);
    const inside = await readdir(place).catch(() => ['?']);
    if (inside.length > 0) throw new Refused(['notEmpty', place]);
  });
  for (const own of ['procedures', 'guides', 'figures']) await host.disk.makeFolder(path.join(place, own)).catch(fault(['nothingMade']));
  for (const [own, text] of texts(publisher.trim()))
    await writeWhole(path.join(place, ...own.split('/')), new TextEncoder().encode(text), host.disk).catch(fault(['begun', place]));
  return { folder: place };
}
