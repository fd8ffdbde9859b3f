/** Earlier states of a library, over the contract. */
import { figuresAt, revisionsOf, textsAt } from '../history/index.ts';
import { insideLibrary } from '../saving/index.ts';
import type { Handlers, Inner } from './inner.ts';

const any = (): boolean => true;

export const earlier = (host: Inner): Pick<Handlers, 'history.around' | 'history.library' | 'history.figures'> => ({
  'history.around': async ({ library, path }) => {
    const root = host.rootOf(library);
    await insideLibrary(root, path, any);
    // A guide says what its procedures say.
    const bound = path.startsWith('guides/') ? ['procedures'] : [];
    return { revisions: await revisionsOf(root, path, 'library.yaml', 'registers', ...bound) };
  },
  'history.library': async ({ library, revision }) => ({ texts: await textsAt(host.rootOf(library), revision) }),
  'history.figures': async ({ library, revision }) => {
    const figures = Object.entries(await figuresAt(host.rootOf(library), revision));
    return { figures: Object.fromEntries(figures.map(([path, bytes]) => [path, bytes && Buffer.from(bytes).toString('base64')])) };
  },
});
