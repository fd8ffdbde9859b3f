/** Earlier texts of a file, over the contract. */
import { revisionsOf, textAt } from '../history/index.ts';
import { insideLibrary } from '../saving/index.ts';
import type { Handlers, Inner } from './inner.ts';

const any = (): boolean => true;

export const earlier = (host: Inner): Pick<Handlers, 'history.list' | 'history.read'> => ({
  'history.list': async ({ library, path }) => {
    const root = host.rootOf(library);
    await insideLibrary(root, path, any);
    return { revisions: await revisionsOf(root, path) };
  },
  'history.read': async ({ library, path, revision }) => {
    const root = host.rootOf(library);
    await insideLibrary(root, path, any);
    return { text: await textAt(root, path, revision) };
  },
});
