/** Earlier texts of a file where the library stands under git. Reads only; runs nothing that the repository configures, and fetches nothing. */
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { Refused } from '../contract/index.ts';

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

/** Newest first; empty where there is no git, no repository or no history of this file. */
export async function revisionsOf(root: string, path: string): Promise<readonly Revision[]> {
  const format = '--format=%H%x00%ad%x00%an%x00%s';
  const words = ['log', '--max-count=200', '--no-color', '--no-ext-diff', '--no-textconv', '--date=short', format, '--', `./${path}`];
  const out = await git(root, words).catch(() => '');
  return out
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => {
      const [id = '', date = '', author = '', subject = ''] = line.split('\0');
      return { id, date, author, subject };
    });
}

export async function textAt(root: string, path: string, revision: string): Promise<string> {
  if (!/^([0-9a-f]{40}|[0-9a-f]{64})$/.test(revision)) throw new Refused('This is no revision.');
  return git(root, ['show', '--no-color', '--no-ext-diff', '--no-textconv', `${revision}:./${path}`]).catch(() => {
    throw new Refused('That revision does not hold this file.');
  });
}
