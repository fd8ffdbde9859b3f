/**
 * Reads a library folder: its texts, and the names of its figures. Never reads outside the folder: a link that leads out is refused
 * by name. Whether what it read is right is for the core.
 */
import { inWords, type Said } from '../contract/index.ts';
import { decode } from './decode.ts';
import { type Disk, type Entry, nodeDisk } from './disk.ts';
import { isFolder, isOther, isText } from './places.ts';

export interface TextFile {
  /** Relative to the library, with forward slashes on every system. */
  readonly path: string;
  readonly text: string;
}

/** A file that could not be taken as it stands, in words for people. */
export interface Refusal {
  readonly path: string;
  readonly line: number;
  readonly column: number;
  readonly message: string;
  /** The same by name, for whoever says it in another language. */
  readonly said: Said;
  readonly expected: string;
}

export interface LibraryOnDisk {
  /** The real path of the folder. */
  readonly root: string;
  readonly texts: readonly TextFile[];
  /** Every file there is in it, texts and figures, sorted. */
  readonly paths: readonly string[];
  readonly refusals: readonly Refusal[];
}

export const LARGEST_TEXT = 8_000_000;
export const LARGEST_FIGURE = 64_000_000;
const DEEPEST = 12;
const MOST_FILES = 50_000;
/** Files open at a time: enough to keep a disk busy, few enough for every system's limit. */
const AT_ONCE = 64;

export async function readLibrary(folder: string, disk: Disk = nodeDisk): Promise<LibraryOnDisk> {
  const root = await disk.real(folder);
  const refusals: Refusal[] = [];
  const found = await walk(root, disk, refusals);
  const texts: TextFile[] = [];
  const wanted = found.filter((path) => isText(path));
  for (let from = 0; from < wanted.length; from += AT_ONCE) {
    const batch = wanted.slice(from, from + AT_ONCE);
    for (const text of await Promise.all(batch.map((path) => readText(root, path, disk, refusals)))) if (text) texts.push(text);
  }
  return { root, texts, paths: found, refusals: refusals.sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0)) };
}

/**
 * A line for each file that is no text, with its size and when it was written: tells two states of a library's pictures apart without reading one. Texts
 * are told apart by what stands in them.
 */
export async function stampsOf(folder: string, disk: Disk = nodeDisk): Promise<readonly string[]> {
  const root = await disk.real(folder);
  const others = (await walk(root, disk, [])).filter((path) => !isText(path));
  const out: string[] = [];
  for (let from = 0; from < others.length; from += AT_ONCE)
    out.push(
      ...(await Promise.all(
        others.slice(from, from + AT_ONCE).map(async (path) => {
          const found = await disk.stat(disk.path.join(root, ...path.split('/'))).catch(() => undefined);
          return `${path} ${found?.size ?? ''} ${found?.written ?? ''}`;
        }),
      )),
    );
  return out;
}

/** The bytes of one figure, or undefined when it is missing, too large or outside the library. */
export async function readFigure(root: string, path: string, disk: Disk = nodeDisk): Promise<Uint8Array | undefined> {
  try {
    const real = await disk.real(disk.path.join(root, ...path.split('/')));
    if (!isInside(root, real, disk)) return undefined;
    const { kind, size } = await disk.stat(real);
    return kind === 'file' && size <= LARGEST_FIGURE ? await disk.read(real) : undefined;
  } catch {
    return undefined;
  }
}

/** Whether a folder holds a library, without reading it. Its real path; undefined: it does not, or cannot be read. */
export async function libraryAt(folder: string, disk: Disk = nodeDisk): Promise<string | undefined> {
  try {
    const root = await disk.real(folder);
    const file = await disk.real(disk.path.join(root, 'library.yaml'));
    return isInside(root, file, disk) && (await disk.stat(file)).kind === 'file' ? root : undefined;
  } catch {
    return undefined;
  }
}

/** Whether a real path lies in a folder. */
export function isInside(root: string, real: string, disk: Pick<Disk, 'path'> = nodeDisk): boolean {
  const way = disk.path.relative(root, real);
  return way !== '' && way !== '..' && !way.startsWith(`..${disk.path.sep}`) && !disk.path.isAbsolute(way);
}

async function walk(root: string, disk: Disk, refusals: Refusal[]): Promise<string[]> {
  const out: string[] = [];
  const visit = async (folder: string, depth: number): Promise<void> => {
    let entries: readonly Entry[];
    try {
      entries = await disk.list(disk.path.join(root, ...folder.split('/').filter(Boolean)));
    } catch (error) {
      refusals.push(refuse(folder, ['folderShut', codeOf(error)], 'A folder that you may read.'));
      return;
    }
    for (const entry of [...entries].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0))) {
      const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
      if (entry.name.startsWith('.') || !(isFolder(path) || isText(path))) continue;
      if (out.length >= MOST_FILES) return;
      const kind = entry.kind === 'link' ? await behindLink(root, path, disk, refusals) : entry.kind;
      if (kind === 'folder') {
        if (isText(path)) refusals.push(refuse(path, ['fileShut', 'EISDIR'], 'A text file of that name, or another name for the folder.'));
        if (depth >= DEEPEST)
          refusals.push(refuse(path, ['folderDeep', String(DEEPEST)], 'Fewer levels; a link that leads back to itself?'));
        else await visit(path, depth + 1);
      } else if (kind === 'file' && (isText(path) || isOther(path))) out.push(path);
    }
  };
  await visit('', 0);
  if (out.length >= MOST_FILES) refusals.push(refuse('library.yaml', ['manyFiles', String(MOST_FILES)], 'A smaller library.'));
  return out.sort();
}

/** What a link leads to, if that lies in the library too. */
async function behindLink(root: string, path: string, disk: Disk, refusals: Refusal[]): Promise<Entry['kind'] | undefined> {
  try {
    const link = disk.path.join(root, ...path.split('/'));
    const real = await disk.real(link);
    if (isInside(root, real, disk)) {
      // Every file behind it would be read again and again, and be its own double.
      const holder = await disk.real(disk.path.join(root, ...path.split('/').slice(0, -1)));
      if (holder !== real && !isInside(real, holder, disk)) return (await disk.stat(real)).kind;
      refusals.push(refuse(path, ['linkNowhere', 'ELOOP'], 'The folder itself, or no link.'));
    } else refusals.push(refuse(path, ['linkOut'], 'The file itself, inside the library.'));
  } catch (error) {
    refusals.push(refuse(path, ['linkNowhere', codeOf(error)], 'The file itself, or a link to a file of the library.'));
  }
  return undefined;
}

async function readText(root: string, path: string, disk: Disk, refusals: Refusal[]): Promise<TextFile | undefined> {
  const file = disk.path.join(root, ...path.split('/'));
  try {
    const { size } = await disk.stat(file);
    if (size > LARGEST_TEXT) {
      const megabytes = Math.ceil(size / 1_000_000);
      refusals.push(refuse(path, ['fileLong', String(megabytes)], `A text of at most ${LARGEST_TEXT / 1_000_000} MB.`));
      return undefined;
    }
    const decoded = decode(await disk.read(file));
    if (decoded.kind === 'text') return { path, text: decoded.text };
    if (decoded.kind === 'damaged') {
      const byte = `0x${decoded.byte.toString(16).toUpperCase().padStart(2, '0')}`;
      refusals.push(refuse(path, ['fileDamaged', byte], 'The file saved again as UTF-8.', decoded.line, decoded.column));
      return { path, text: decoded.text };
    }
    refusals.push(
      decoded.kind === 'utf-16'
        ? refuse(path, ['fileUtf16'], 'The file saved again as UTF-8.')
        : refuse(path, ['fileNoText'], 'A text file in UTF-8.'),
    );
  } catch (error) {
    refusals.push(refuse(path, ['fileShut', codeOf(error)], 'A file that you may read.'));
  }
  return undefined;
}

function refuse(path: string, said: Said, expected: string, line = 1, column = 1): Refusal {
  return { path, line, column, said, message: inWords([said]), expected };
}

/** The system's own name of what went wrong; '' where it has none. */
function codeOf(error: unknown): string {
  const code = (error as { code?: unknown } | undefined)?.code;
  return typeof code === 'string' ? code : '';
}
