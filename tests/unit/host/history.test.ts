import { execFileSync } from 'node:child_process';
import { chmodSync, existsSync, symlinkSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { gitEnvironment } from '../../../electron/host/history/git.ts';
import { figuresAt, revisionNamed, revisionsOf, textsAt } from '../../../electron/host/history/index.ts';
import { hostOf, newFolder, newLibrary, put, SMALL } from '../../support/host.ts';

const WHO = {
  GIT_AUTHOR_NAME: 'A. Writer',
  GIT_AUTHOR_EMAIL: 'a@example.com',
  GIT_COMMITTER_NAME: 'A. Writer',
  GIT_COMMITTER_EMAIL: 'a@example.com',
};
const DATES = { GIT_AUTHOR_DATE: '2026-03-02T10:00:00Z', GIT_COMMITTER_DATE: '2026-03-02T10:00:00Z' };

function git(folder: string, ...words: readonly string[]): string {
  const env = { ...gitEnvironment(process.env), ...WHO, ...DATES, GIT_CONFIG_GLOBAL: '', GIT_CONFIG_NOSYSTEM: '1' };
  return execFileSync('git', ['-C', folder, ...words], { encoding: 'utf8', env });
}

function commit(folder: string, subject: string): string {
  git(folder, 'add', '-A');
  git(folder, 'commit', '-q', '-m', subject);
  return git(folder, 'rev-parse', 'HEAD').trim();
}

/** A library in a folder of a repository, as it may well be. */
function underGit(): { readonly root: string; readonly first: string; readonly second: string } {
  const above = newFolder();
  git(above, 'init', '-q');
  const root = path.join(above, 'library');
  put(root, SMALL);
  const first = commit(above, 'First issue: 100 % "done"');
  put(root, { 'procedures/a.md': '\uFEFFsecond\r\n' });
  const second = commit(above, 'Ändert das Lager');
  return { root, first, second };
}

describe('under git', () => {
  const { root, first, second } = underGit();

  test('the revisions of a file stand newest first', async () => {
    expect(await revisionsOf(root, 'procedures/a.md')).toEqual([
      { id: second, date: '2026-03-02', author: 'A. Writer', subject: 'Ändert das Lager' },
      { id: first, date: '2026-03-02', author: 'A. Writer', subject: 'First issue: 100 % "done"' },
    ]);
  });

  test('the whole library is given as it was, with the texts that documents are read with and no others', async () => {
    const texts = await textsAt(root, first);
    expect(texts['procedures/a.md']).toBe('first\n');
    expect((await textsAt(root, second))['procedures/a.md']).toBe('\uFEFFsecond\r\n');
    expect(Object.keys(texts).sort()).toEqual(
      Object.keys(SMALL)
        .filter((own) => /^(library\.yaml$|registers\/|procedures\/|guides\/)/.test(own))
        .sort(),
    );
    await expect(textsAt(root, '0'.repeat(40))).rejects.toThrow('does not hold this library');
    await expect(textsAt(root, 'HEAD')).rejects.toThrow('This is no revision.');
  });

  test('figures are given as they were, and null for those that are as they were', async () => {
    const own = newLibrary({ ...SMALL, 'figures/a.svg': '<svg/>', 'figures/b.png': 'old', 'figures/note.txt': 'no' });
    git(own, 'init', '-q');
    const then = commit(own, 'one');
    put(own, { 'figures/b.png': 'new', 'figures/c.svg': '<svg/>' });
    const figures = await figuresAt(own, then);
    expect(Object.keys(figures).sort()).toEqual(['figures/a.svg', 'figures/b.png']);
    expect(figures['figures/a.svg']).toBeNull();
    expect(Buffer.from(figures['figures/b.png'] as Uint8Array).toString()).toBe('old');
    const { call, library } = await hostOf(own);
    expect((await call('history.figures', { library, revision: then })).figures).toEqual({
      'figures/a.svg': null,
      'figures/b.png': Buffer.from('old').toString('base64'),
    });
  });

  test('a revision is found by a tag, a branch and the beginning of its number; words that are none are no setting either', async () => {
    git(root, 'tag', 'issue-a', first);
    expect(await revisionNamed(root, 'issue-a')).toBe(first);
    expect(await revisionNamed(root, 'HEAD~1')).toBe(first);
    expect(await revisionNamed(root, second.slice(0, 8))).toBe(second);
    for (const odd of ['', 'no-such', '--all', 'a\0b', 'HEAD:procedures/a.md']) expect(await revisionNamed(root, odd)).toBeUndefined();
  });

  test('a link in it is left out, and bytes that are no text', async () => {
    const own = newLibrary();
    git(own, 'init', '-q');
    symlinkSync('/etc/hostname', path.join(own, 'procedures/link.md'));
    writeFileSync(path.join(own, 'procedures/odd.md'), Buffer.from([0xff, 0xfe, 0x41, 0x00]));
    put(own, { 'registers/odd name ü.yaml': 'tools:\n', 'review/A-1.yaml': 'remarks:\n' });
    const texts = await textsAt(own, commit(own, 'one'));
    expect(texts['procedures/link.md']).toBeUndefined();
    expect(texts['procedures/odd.md']).toBeUndefined();
    expect(texts['review/A-1.yaml']).toBeUndefined();
    expect(texts['registers/odd name ü.yaml']).toBe('tools:\n');
    expect(texts['procedures/a.md']).toBe('first\n');
  });

  test('over the contract a register that changed is a revision of each document', async () => {
    const own = newLibrary();
    git(own, 'init', '-q');
    commit(own, 'one');
    put(own, { 'registers/tools.yaml': 'tools:\n  wrench: {kind: hand tool}\n' });
    const id = commit(own, 'Another wrench');
    const { call, library } = await hostOf(own);
    const ask = { library, path: 'procedures/a.md' };
    expect((await call('history.around', ask)).revisions.map(({ subject }) => subject)).toEqual(['Another wrench', 'one']);
    expect((await call('history.library', { library, revision: id })).texts['registers/tools.yaml']).toContain('wrench');
  });

  test('a file without history has none', async () => {
    expect(await revisionsOf(root, 'procedures/none.md')).toEqual([]);
  });

  test('a name with signs that git would read as a pattern is only itself', async () => {
    put(root, { 'procedures/[a].md': 'x\n' });
    expect(await revisionsOf(root, 'procedures/[a].md')).toEqual([]);
  });

  test.each(['HEAD', 'HEAD~1', '--output=x', 'a'.repeat(41), '', 'master:library.yaml #'])('"%s" is no revision', async (revision) => {
    await expect(textsAt(root, revision)).rejects.toThrow('This is no revision.');
  });

  test('over the contract no path leaves the library, and no hidden file is named', async () => {
    const { call, library } = await hostOf(root);
    for (const own of ['../x.md', '.git/config', 'procedures/../../x', '/etc/x', 'a:b'])
      await expect(call('history.around', { library, path: own }), own).rejects.toThrow('is no place in a library');
    expect((await call('history.around', { library, path: 'procedures/a.md' })).revisions).toHaveLength(2);
  });
});

describe('without git', () => {
  test('there is no history, and that is no error', async () => {
    expect(await revisionsOf(newLibrary(), 'procedures/a.md')).toEqual([]);
  });
});

// A library may come from anywhere, and with it the settings of its repository.
describe.skipIf(process.platform === 'win32')('a repository whose settings name programs', () => {
  function trapped(): { readonly root: string; readonly ran: string; readonly id: string } {
    const root = newLibrary();
    git(root, 'init', '-q');
    const id = commit(root, 'one');
    const ran = path.join(newFolder(), 'ran');
    const trap = path.join(newFolder(), 'trap');
    writeFileSync(trap, `#!/bin/sh\necho "$0" >> "${ran}"\nexit 1\n`);
    chmodSync(trap, 0o755);
    const settings = [
      'core.fsmonitor',
      'core.pager',
      'diff.external',
      'core.sshCommand',
      'core.editor',
      'gpg.program',
      'log.showSignature',
    ];
    for (const name of settings) git(root, 'config', name, name === 'log.showSignature' ? 'true' : trap);
    git(root, 'config', 'diff.x.textconv', trap);
    git(root, 'config', 'diff.x.command', trap);
    git(root, 'config', 'filter.x.smudge', trap);
    git(root, 'config', 'protocol.ext.allow', 'always');
    git(root, 'config', 'remote.origin.url', `ext::${trap} %S`);
    git(root, 'config', 'remote.origin.promisor', 'true');
    git(root, 'config', 'extensions.partialClone', 'origin');
    put(root, { '.gitattributes': '*.md diff=x filter=x\n' });
    return { root, ran, id };
  }

  test('runs none of them', async () => {
    const { root, ran, id } = trapped();
    expect(await revisionsOf(root, 'procedures/a.md')).toHaveLength(1);
    expect((await textsAt(root, id))['procedures/a.md']).toBe('first\n');
    // An object that is not there: a partial clone would fetch it by the program that stands in its settings.
    await expect(textsAt(root, 'f'.repeat(40))).rejects.toThrow('does not hold this library');
    expect(existsSync(ran)).toBe(false);
  });

  test('would have run it, had we asked carelessly', () => {
    const { root, ran } = trapped();
    try {
      execFileSync('git', ['-C', root, 'show', `${'f'.repeat(40)}:procedures/a.md`], { stdio: 'ignore', timeout: 10_000 });
    } catch {
      // It fails either way.
    }
    try {
      execFileSync('git', ['-C', root, 'status'], { stdio: 'ignore', timeout: 10_000 });
    } catch {
      // As above.
    }
    expect(existsSync(ran)).toBe(true);
  });

  test('a "git" that lies in the library is not run', async () => {
    const { root } = underGit();
    const ran = path.join(newFolder(), 'ran');
    writeFileSync(path.join(root, 'git'), `#!/bin/sh\necho x > "${ran}"\n`);
    chmodSync(path.join(root, 'git'), 0o755);
    expect(await revisionsOf(root, 'procedures/a.md')).toHaveLength(2);
    expect(existsSync(ran)).toBe(false);
  });

  test('a folder that is dressed up as a bare repository is not taken for one', async () => {
    const root = newLibrary({ ...SMALL, HEAD: 'ref: refs/heads/main\n', 'objects/x': '', 'refs/x': '', config: '[core]\n\tbare = true\n' });
    expect(await revisionsOf(root, 'procedures/a.md')).toEqual([]);
  });
});

test('nothing of another repository comes in by the environment', () => {
  const own = gitEnvironment({ PATH: 'p', GIT_DIR: 'elsewhere', GIT_WORK_TREE: 'x', GIT_EXTERNAL_DIFF: 'x', git_ssh: 'x' });
  expect(
    Object.keys(own)
      .filter((name) => /^git/i.test(name))
      .sort(),
  ).toEqual(['GIT_ALLOW_PROTOCOL', 'GIT_NO_LAZY_FETCH', 'GIT_OPTIONAL_LOCKS', 'GIT_TERMINAL_PROMPT']);
  expect(own.PATH).toBe('p');
});
