/** The figures of a library: all of them ready to print, or only what stands in them, for the checks. What is wrong with one is for the core to say. */
import { type LibraryOnDisk, readFigure } from '../electron/host/files/index.ts';
import { type FigureFacts, type FigureFile, figureFacts, kindOfFigure, UNREAD } from '../procedures-schema/figures/index.ts';

/** Files open at a time. */
const AT_ONCE = 32;

/** Every figure the library holds, by path, ready to print. */
export async function figuresOf(disk: LibraryOnDisk): Promise<ReadonlyMap<string, FigureFile>> {
  const out = new Map<string, FigureFile>();
  await eachFigure(disk, (path, file) => file && out.set(path, file));
  return out;
}

/** Of each only what is known of it: a check holds no pictures in memory. */
export async function figureFactsOf(disk: LibraryOnDisk): Promise<ReadonlyMap<string, FigureFacts>> {
  const out = new Map<string, FigureFacts>();
  await eachFigure(disk, (path, file, kind) => out.set(path, file ? figureFacts(file) : { kind, fault: UNREAD }));
  return out;
}

async function eachFigure(
  disk: LibraryOnDisk,
  take: (path: string, file: FigureFile | undefined, kind: FigureFile['kind']) => void,
): Promise<void> {
  const paths = disk.paths.flatMap((path) => {
    const kind = path.startsWith('figures/') ? kindOfFigure(path) : undefined;
    return kind === undefined ? [] : [{ path, kind }];
  });
  for (let from = 0; from < paths.length; from += AT_ONCE)
    await Promise.all(
      paths.slice(from, from + AT_ONCE).map(async ({ path, kind }) => {
        const bytes = await readFigure(disk.root, path);
        take(path, bytes && (kind === 'svg' ? { kind, source: new TextDecoder().decode(bytes) } : { kind, bytes }), kind);
      }),
    );
}
