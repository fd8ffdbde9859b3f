/** `npm start` as a user runs it: says where the app opens and why there, and hands the library on. */
import { spawn } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { buildApp, buildShell, root } from '../../cli/setup.mjs';
import { newFolder, newLibrary } from '../support/host.ts';

/** Runs it until it ends or its words hold what is waited for; then as Ctrl-C would end it. */
function start(
  words: readonly string[],
  environment: Readonly<Record<string, string>>,
  until?: RegExp,
): Promise<{ readonly said: string; readonly code: number | null }> {
  const env = {
    ...process.env,
    HANDSCLEAR_NO_BROWSER: '1',
    HANDSCLEAR_DATA: newFolder(),
    DISPLAY: '',
    WAYLAND_DISPLAY: '',
    ...environment,
  };
  const child = spawn(process.execPath, [path.join(root, 'cli', 'start.mjs'), ...words], {
    cwd: root,
    env,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  const hear = (part: Buffer): void => {
    said += part;
    if (until?.test(said)) child.kill('SIGINT');
  };
  child.stdout.on('data', hear);
  child.stderr.on('data', hear);
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ said, code }));
  });
}

const nowhere = newFolder();
/** A stand-in for the shell's binary that writes down what it was started with. */
function fakeShell(code: number): { readonly folder: string; readonly asked: () => string } {
  const folder = newFolder();
  const note = path.join(folder, 'asked');
  const noted = path.join(root, 'node_modules', 'electron', 'path.txt');
  const file = path.join(folder, existsSync(noted) ? readFileSync(noted, 'utf8').trim() : 'electron');
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, `#!/bin/sh\nprintf '%s\\n' "$@" > "${note}"\nexit ${code}\n`);
  chmodSync(file, 0o755);
  return { folder, asked: () => readFileSync(note, 'utf8') };
}

describe.skipIf(process.platform === 'win32')('npm start', () => {
  beforeAll(async () => {
    await buildApp();
    await buildShell();
  });

  test('without the desktop shell opens at the loopback address, and says so', async () => {
    const library = newLibrary();
    const { said, code } = await start([library], { ELECTRON_OVERRIDE_DIST_PATH: nowhere }, /Ctrl-C/);
    expect(said).toContain(
      `The desktop shell is not installed here ("npx install-electron" would fetch it), so Handsclear opens in your browser, on ${library}.`,
    );
    expect(said).toMatch(/http:\/\/127\.0\.0\.1:\d+\/\?code=[\w-]{32}\n/);
    expect(code).toBe(0);
  });

  test('opens the sample library when none is named', async () => {
    const { said } = await start([], { ELECTRON_OVERRIDE_DIST_PATH: nowhere }, /Ctrl-C/);
    expect(said).toContain(`on ${path.join(root, 'sample-procedures')}.`);
  });

  test('with the desktop shell opens that, on the library', async () => {
    const library = newLibrary();
    const shell = fakeShell(0);
    const { said, code } = await start([library], { ELECTRON_OVERRIDE_DIST_PATH: shell.folder, DISPLAY: ':0' });
    expect(said).toContain(`Handsclear opens in its own window, on ${library}.`);
    expect(shell.asked()).toBe(`${root}\n${library}\n`);
    expect(code).toBe(0);
  });

  test('says when the shell fails, and what to do', async () => {
    const { said, code } = await start([newLibrary()], { ELECTRON_OVERRIDE_DIST_PATH: fakeShell(3).folder, DISPLAY: ':0' });
    expect(said).toContain('The desktop shell ended with 3. "npm start -- --browser" opens in the browser instead.');
    expect(code).toBe(3);
  });

  test('can be asked for the browser all the same', async () => {
    const shell = fakeShell(0);
    const { said } = await start([newLibrary(), '--browser'], { ELECTRON_OVERRIDE_DIST_PATH: shell.folder, DISPLAY: ':0' }, /Ctrl-C/);
    expect(said).toContain('As you asked, Handsclear opens in your browser');
  });

  test.runIf(process.platform === 'linux')('has no use for a shell without a screen', async () => {
    const { said } = await start([newLibrary()], { ELECTRON_OVERRIDE_DIST_PATH: fakeShell(0).folder }, /Ctrl-C/);
    expect(said).toContain('There is no screen for the desktop shell, so Handsclear opens in your browser');
  });

  test('refuses what is no library', async () => {
    const { said, code } = await start([nowhere], {});
    expect(said).toContain('is not a library: it has no library.yaml.');
    expect(code).toBe(2);
  });
});
