/** Earlier texts of a file where the library stands under git. Reads only; runs nothing that the repository configures. */
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';

const run = promisify(execFile);

/** Settings of a repository can name programs to run; these switch off what a reading command would obey. */
const QUIET = [
  '-c',
  'core.fsmonitor=false',
  '-c',
  'core.hooksPath=',
  '-c',
  'diff.external=',
  '-c',
  'core.pager=cat',
  '-c',
  'log.showSignature=false',
];

async function git(root: string, words: readonly string[]): Promise<string> {
  const { stdout } = await run('git', [...QUIET, ...words], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 32_000_000,
    timeout: 20_000,
    env: { ...process.env, GIT_OPTIONAL_LOCKS: '0', GIT_TERMINAL_PROMPT: '0' },
  });
  return stdout;
}

export interface Revision {
  readonly id: string;
  readonly date: string;
  readonly author: string;
  readonly subject: string;
}

/** Newest first; empty where there is no git, no repository or no history of this file. */
export async function revisionsOf(root: string, path: string): Promise<readonly Revision[]> {
  const out = await git(root, [
    'log',
    '--max-count=200',
    '--no-ext-diff',
    '--no-textconv',
    '--date=short',
    '--format=%H%x00%ad%x00%an%x00%s',
    '--',
    `./${path}`,
  ]).catch(() => '');
  return out
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => {
      const [id = '', date = '', author = '', subject = ''] = line.split('\0');
      return { id, date, author, subject };
    });
}

export async function textAt(root: string, path: string, revision: string): Promise<string> {
  if (!/^[0-9a-f]{40,64}$/.test(revision)) throw new Error('This is no revision.');
  return git(root, ['show', '--no-ext-diff', '--no-textconv', `${revision}:./${path}`]).catch(() => {
    throw new Error('That revision does not hold this file.');
  });
}
