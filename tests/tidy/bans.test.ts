import { describe, expect, test } from 'vitest';
import { banned } from './bans.ts';
import { readSource, sourceFiles } from './source.ts';

const pure = (path: string): boolean => /^(procedures-schema|publishing)\//.test(path);

test('core and publishing use nothing that differs between machines', () => {
  const found = sourceFiles()
    .filter((file) => pure(file.path))
    .flatMap((file) => banned(file));
  expect(found.map(({ file, line, what, because }) => `${file}:${line} uses ${what}: ${because}`)).toEqual([]);
});

describe('the bans themselves', () => {
  const whats = (text: string): readonly string[] => banned(readSource('publishing/x.ts', text)).map(({ what }) => what);

  test.each([
    ['names.sort((a, b) => a.localeCompare(b));', '.localeCompare'],
    ['const s = n.toLocaleString();', '.toLocaleString'],
    ['const s = word.toLocaleUpperCase();', '.toLocaleUpperCase'],
    ['new Intl.NumberFormat();', 'Intl'],
    ['const now = new Date();', 'Date'],
    ['const now = Date.now();', 'Date'],
    ['const x = Math.sin(1);', 'Math.sin'],
    ['const x = Math.pow(2, 3);', 'Math.pow'],
    ['const x = Math.log10(2);', 'Math.log10'],
    ['const x = Math.random();', 'Math.random'],
    ['const home = process.env.HOME;', 'process.env'],
    ['setTimeout(f, 1);', 'setTimeout'],
    ['const b = Buffer.from([]);', 'Buffer'],
  ])('%s', (text, what) => {
    expect(whats(text)).toEqual([what]);
  });

  test.each([
    'const x = Math.round(Math.sqrt(2) + Math.abs(-1));',
    '// Date and Intl in a comment',
    "const words = ['Date', 'Math.random'];",
    'const head = { Date: 1 };',
    'interface Head { readonly Date: string }',
    'const process = step; process.next;',
  ])('%s is fine', (text) => {
    expect(whats(text)).toEqual([]);
  });
});
