/** Where a path of a library lies on disk, if it lies inside. Decides; writes nothing. */
import { realpath } from 'node:fs/promises';
import path from 'node:path';
import { Refused } from '../contract/index.ts';
import { isInside } from '../files/index.ts';
import { unfitPath } from './names.ts';

/**
 * The file's place on disk, its links followed. Refuses, in words, every path that is not plainly inside the library, also by way of
 * links, and every link to a place in it where `allowed` would not let this be written.
 */
export async function insideLibrary(root: string, own: string, allowed: (own: string) => boolean): Promise<string> {
  const unfit = unfitPath(own);
  if (unfit !== undefined || !allowed(own)) throw new Refused(['noPlace', own], ...(unfit === undefined ? [] : [unfit]));
  const file = path.join(root, ...own.split('/'));
  const real = await realOf(file);
  if (!isInside(root, real)) throw new Refused(['leadsOut', own]);
  const way = path.relative(root, real).split(path.sep).join('/');
  if (unfitPath(way) !== undefined || !allowed(way)) throw new Refused(['linkElsewhere', own, way]);
  return real;
}

/** Of what does not exist yet, the nearest folder that does is followed, and the rest is put behind it. */
async function realOf(file: string): Promise<string> {
  const real = await realpath(file).catch(() => undefined);
  if (real !== undefined) return real;
  const above = path.dirname(file);
  return above === file ? file : path.join(await realOf(above), path.basename(file));
}
