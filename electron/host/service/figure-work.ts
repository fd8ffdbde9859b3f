/** Figures: read, added, and taken away again by the window that added them. What refers to a figure is looked for by `figure-uses.ts`. */
import { dirname } from 'node:path';
import { Refused } from '../contract/index.ts';
import { isOther, readFigure } from '../files/index.ts';
import { hashOf, insideLibrary, twinOf, unfitPath, writeWhole } from '../saving/index.ts';
import { usesOfFigure } from './figure-uses.ts';
import type { Caller, Handlers, Inner } from './inner.ts';
import { fault } from './inner.ts';

type Work = Pick<Handlers, 'figure.read' | 'figure.write' | 'figure.remove'>;

const isNewFigure = (own: string): boolean => /^figures\/[^/]+\.(svg|png|jpe?g)$/i.test(own);

/** What was not there before this host began. `by`: every window that put it in, whether or not it was there then. */
interface Added {
  readonly hash: string;
  readonly by: Set<Caller>;
}

export function figureWork(host: Inner): Work {
  const added = new Map<string, Added>();
  const nameIn = (root: string, path: string): string => `${root}\0${path}`;
  return {
    'figure.read': async ({ library, path }) => {
      const root = host.rootOf(library);
      const bytes = isOther(path) && unfitPath(path) === undefined ? await readFigure(root, path) : undefined;
      if (bytes === undefined) throw new Refused(['noFigure', path]);
      return { base64: Buffer.from(bytes).toString('base64') };
    },

    'figure.write': async ({ library, name, base64 }, caller) => {
      const root = host.rootOf(library);
      const path = `figures/${name}`;
      const bytes = Buffer.from(base64, 'base64');
      const file = await insideLibrary(root, path, isNewFigure);
      const fresh = await host.turns
        .run(root, async () => {
          const there = await host.disk.read(file);
          if (there !== undefined && Buffer.from(there).equals(bytes)) return false;
          const twin = await twinOf(root, path);
          if (twin !== undefined) throw new Refused(['otherFigure', twin]);
          return writeWhole(file, bytes, host.disk);
        })
        .catch(fault(['figureNotAdded']));
      const known = added.get(nameIn(root, path));
      if (known && !fresh) known.by.add(caller);
      else if (fresh) added.set(nameIn(root, path), { hash: hashOf(bytes), by: new Set([caller]) });
      return { path, added: fresh };
    },

    'figure.remove': async ({ library, path }, caller) => {
      const root = host.rootOf(library);
      const own = added.get(nameIn(root, path));
      // Windows without a name cannot be told apart.
      if (caller === '' || !own?.by.has(caller)) throw new Refused(['figureNotOurs', path]);
      if (own.by.size > 1) throw new Refused(['figureTwice', path]);
      const file = await insideLibrary(root, path, isNewFigure);
      // In its turn, so that no text that refers to it is saved between the look and the deed.
      const usedIn = await host.turns
        .run(root, async () => {
          const there = await host.disk.read(file);
          if (there === undefined) return [];
          if (hashOf(there) !== own.hash) throw new Refused(['figureChanged', path]);
          const uses = await usesOfFigure(host, root, path);
          if (uses.length > 0) return uses;
          await host.disk.remove(file);
          await host.disk.flushFolder(dirname(file));
          return [];
        })
        .catch(fault(['figureStays']));
      if (usedIn.length === 0) added.delete(nameIn(root, path));
      return { removed: usedIn.length === 0, usedIn };
    },
  };
}
