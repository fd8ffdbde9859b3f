import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { openingAt, openingOf, userWords } from '../../../electron/opening.ts';
import { newFolder, newLibrary } from '../../support/host.ts';

const folder = newLibrary({ 'library.yaml': 'publisher: x\n', 'procedures/fans/a.md': 'a\n' });

describe('what is asked to be opened', () => {
  test('is a library', async () => expect(await openingAt(folder)).toEqual({ folder }));
  test('is its library.yaml', async () => expect(await openingAt(path.join(folder, 'library.yaml'))).toEqual({ folder }));
  test('is a text in it', async () =>
    expect(await openingAt(path.join(folder, 'procedures', 'fans', 'a.md'))).toEqual({ folder, show: 'procedures/fans/a.md' }));
  test('is a folder in it', async () => expect(await openingAt(path.join(folder, 'procedures'))).toEqual({ folder }));
  test('is a folder without a library', async () => expect(await openingAt(newFolder())).toBeUndefined());
  test('is not there', async () => expect(await openingAt(path.join(folder, 'nowhere'))).toBeUndefined());
  test('lies too deep', async () => {
    const deep = path.join(folder, ...Array.from({ length: 20 }, () => 'd'));
    mkdirSync(deep, { recursive: true });
    expect(await openingAt(deep)).toBeUndefined();
  });
});

describe('a command line', () => {
  test('leads to a library from where it was given, past what is for the shell', async () => {
    expect(await openingOf(['--enable-x', '', 'nowhere', 'procedures/fans/a.md'], folder)).toEqual({
      folder,
      show: 'procedures/fans/a.md',
    });
  });
  test('leads nowhere', async () => expect(await openingOf(['--x'], folder)).toBeUndefined());
  test('has the program before it, and its folder where it was not packed', () => {
    expect(userWords(['electron', '.', 'lib'], false)).toEqual(['lib']);
    expect(userWords(['handsclear', 'lib'], true)).toEqual(['lib']);
  });
});
