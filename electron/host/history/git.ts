/** Earlier texts and figures where the library stands under git. Reads only; runs nothing that the repository configures, and fetches nothing. */
import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { promisify } from 'node:util';
import { Refused } from '../contract/index.ts';
import { decode, isRead, LARGEST_FIGURE, LARGEST_TEXT, readFigure } from '../files/index.ts';

const run = promisify(execFile);

/** Settings of a repository can name programs to run; these switch off what a reading command would obey. */
const QUIET = [
  '--no-pager',
  '--literal-pathspecs',
  ...['core.fsmonitor=false', 'core.hooksPath=', 'diff.external=', 'log.showSignature=false', 'safe.bareRepository=explicit'].flatMap(
    (setting) => ['-c', setting],
  ),
];

/**
 * The environment without what would lead git elsewhere (a hook that started us names its own repository), and with no way out: a
 * repository that keeps some of its objects elsewhere would fetch them by a program of its choice.
 */
export function gitEnvironment(environment: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  const own = Object.entries(environment).filter(([name]) => !/^GIT_/i.test(name) || /^GIT_(EXEC_PATH|SSL_\w+)$/i.test(name));
  return {
    ...Object.fromEntries(own),
    GIT_OPTIONAL_LOCKS: '0',
    GIT_TERMINAL_PROMPT: '0',
    GIT_ALLOW_PROTOCOL: 'none',
    GIT_NO_LAZY_FETCH: '1',
    // On Windows a program is looked for in the folder one stands in first.
    NoDefaultCurrentDirectoryInExePath: '1',
  };
}

async function git(root: string, words: readonly string[]): Promise<string> {
  // The folder is named and not stood in, so that no "git" that lies in it is run.
  const { stdout } = await run('git', ['-C', root, ...QUIET, ...words], {
    encoding: 'utf8',
    maxBuffer: 32_000_000,
    timeout: 20_000,
    windowsHide: true,
    env: gitEnvironment(process.env),
  });
  return stdout;
}

export interface Revision {
  readonly id: string;
  readonly date: string;
  readonly author: string;
  readonly subject: string;
}

/** Newest first; empty where there is no git, no repository or no history of any of these files and folders. */
export async function revisionsOf(root: string, ...paths: readonly string[]): Promise<readonly Revision[]> {
  const format = '--format=%H%x00%ad%x00%an%x00%s';
  const words = [
    'log',
    '--max-count=200',
    '--no-color',
    '--no-ext-diff',
    '--no-textconv',
    '--date=short',
    format,
    '--',
    ...paths.map((path) => `./${path}`),
  ];
  const out = await git(root, words).catch(() => '');
  return out
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => {
      const [id = '', date = '', author = '', subject = ''] = line.split('\0');
      return { id, date, author, subject };
    });
}

function assertRevision(revision: string): void {
  if (!/^([0-9a-f]{40}|[0-9a-f]{64})$/.test(revision)) throw new Refused(['odd', 'This is no revision.']);
}

/** All texts of one library together, or its figures that changed, at most. */
const LARGEST_LIBRARY = 200_000_000;

/** Every text that a document is read with, by path, as that revision holds it. Links and what lies outside the library are left out. */
export async function textsAt(root: string, revision: string): Promise<Readonly<Record<string, string>>> {
  const blobs = await blobsAt(root, revision, (path, size) => isRead(path) && size <= LARGEST_TEXT);
  const bytes = await contentsOf(root, blobs);
  const texts = blobs.flatMap(({ path }, index) => {
    const decoded = decode(bytes[index] as Uint8Array);
    return 'text' in decoded ? [[path, decoded.text] as const] : [];
  });
  return Object.fromEntries(texts);
}

const isFigure = (path: string): boolean => /^figures\/.+\.(svg|png|jpe?g)$/i.test(path);

/** Every figure as that revision holds it; null: with the bytes that the disk holds now. */
export async function figuresAt(root: string, revision: string): Promise<Readonly<Record<string, Uint8Array | null>>> {
  const blobs = await blobsAt(root, revision, (path, size) => isFigure(path) && size <= LARGEST_FIGURE);
  const other: Blob[] = [];
  // One after the other: pictures are large, and only one of them has to be in memory.
  for (const blob of blobs) if (!(await holds(root, blob))) other.push(blob);
  const bytes = await contentsOf(root, other);
  return Object.fromEntries(blobs.map((blob) => [blob.path, bytes[other.indexOf(blob)] ?? null]));
}

/** Whether the disk holds these very bytes: git names a file by the hash of its kind, its length and what is in it. */
async function holds(root: string, { id, path }: Blob): Promise<boolean> {
  const bytes = await readFigure(root, path);
  if (bytes === undefined) return false;
  const hash = createHash(id.length === 40 ? 'sha1' : 'sha256');
  return hash.update(`blob ${bytes.length}\0`).update(bytes).digest('hex') === id;
}

/** The revision that a tag, a branch or the beginning of a number names; undefined: none does. */
export async function revisionNamed(root: string, name: string): Promise<string | undefined> {
  const out = await git(root, ['rev-parse', '--verify', '--quiet', '--end-of-options', `${name}^{commit}`]).catch(() => '');
  return out.trim() === '' ? undefined : out.trim();
}

interface Blob {
  readonly id: string;
  readonly path: string;
  readonly size: number;
}

async function blobsAt(root: string, revision: string, wanted: (path: string, size: number) => boolean): Promise<readonly Blob[]> {
  assertRevision(revision);
  const listed = await git(root, ['ls-tree', '-r', '-z', '-l', revision]).catch(() => {
    throw new Refused(['notThen']);
  });
  return listed.split('\0').flatMap((line) => {
    const [, id = '', size = '', path = ''] = /^100\d{3} blob ([0-9a-f]+) +(\d+)\t(.+)$/s.exec(line) ?? [];
    return path !== '' && wanted(path, Number(size)) ? [{ id, path, size: Number(size) }] : [];
  });
}

/** One program for all of them: starting one for each takes a second a hundred. */
async function contentsOf(root: string, blobs: readonly Blob[]): Promise<Uint8Array[]> {
  if (blobs.length === 0) return [];
  const all = blobs.reduce((sum, { size }) => sum + size, 0);
  if (all > LARGEST_LIBRARY) throw new Refused(['thenTooLarge']);
  const running = run('git', ['-C', root, ...QUIET, 'cat-file', '--batch'], {
    encoding: 'buffer',
    maxBuffer: all + blobs.length * 200 + 1_000,
    timeout: 60_000,
    windowsHide: true,
    env: gitEnvironment(process.env),
  });
  running.child.stdin?.end(blobs.map(({ id }) => `${id}\n`).join(''));
  const { stdout } = await running.catch(() => {
    throw new Refused(['thenUnread']);
  });
  let at = 0;
  return blobs.map(({ id, size }) => {
    const head = `${id} blob ${size}\n`;
    // Objects of a clone that holds only some of them are not fetched.
    if (stdout.subarray(at, at + head.length).toString('latin1') !== head) throw new Refused(['thenNotWhole']);
    const from = at + head.length;
    at = from + size + 1;
    return stdout.subarray(from, from + size);
  });
}
