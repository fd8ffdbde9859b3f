/** Rules about files as a whole: where they lie, how long they are, how they begin, and what no file may say. */
import { describe, expect, test } from 'vitest';
import { isTypeScript, readText, repositoryFiles, sourceFiles } from './source.ts';

const TOP = new Set([
  '.ci',
  '.gitattributes',
  '.gitignore',
  '.npmrc',
  '.readme',
  'DEVELOPERS.md',
  'LICENSE',
  'README.md',
  'biome.json',
  'cli',
  'electron',
  'package-lock.json',
  'package.json',
  'procedures-schema',
  'publishing',
  'renderer',
  'sample-procedures',
  'tests',
  'tsconfig.json',
  'vitest.config.ts',
]);

const LONGEST = 400;
const isText = (path: string): boolean => /\.(ts|tsx|mjs|js|json|md|ya?ml|svg|css|html|txt|vtt)$|^\.ci\/|^\.[a-z]+$/.test(path);
const ours = (path: string): boolean => /^(procedures-schema|publishing|cli|electron|renderer)\//.test(path);

test('the top level holds what the design lists and nothing else', () => {
  const found = [...new Set(repositoryFiles().map((path) => path.split('/')[0] ?? path))];
  expect(found.filter((name) => !TOP.has(name))).toEqual([]);
});

test(`no source file is longer than ${LONGEST} lines without saying "Long because"`, () => {
  const long = repositoryFiles()
    .filter((path) => ours(path) && /\.(ts|tsx|mjs)$/.test(path))
    .filter((path) => readText(path).split('\n').length > LONGEST && !/Long because \S/.test(readText(path)));
  expect(long).toEqual([]);
});

test('every source file begins by saying what it does', () => {
  const silent = repositoryFiles()
    .filter((path) => ours(path) && isTypeScript(path) && !path.endsWith('/index.ts'))
    .filter((path) => !/^(#!.*\n)?\/\*\*/.test(readText(path)));
  expect(silent).toEqual([]);
});

test('an index.ts only exports', () => {
  // The list of checks is the one index that is itself the content: adding a check is adding a line there.
  const found = sourceFiles()
    .filter((file) => file.path.endsWith('/index.ts') && file.path !== 'procedures-schema/checks/index.ts')
    .flatMap((file) =>
      file.body
        .filter((node) => node.type !== 'ExportAllDeclaration' && !(node.type === 'ExportNamedDeclaration' && node.source))
        .map((node) => `${file.path}: ${node.type}`),
    );
  expect(found).toEqual([]);
});

describe('what no file may say', () => {
  // Put together from parts, so that this file does not say it either.
  const SAYINGS: readonly (readonly [RegExp, string])[] = [
    [
      new RegExp(['(^|[\\s"\'`(=])/', '(work|tmp|root|home|Users|var/folders)/'].join(''), 'm'),
      'a path of one machine; use os.tmpdir() or a relative path',
    ],
    [/\b[A-Z]:\\(Users|work|temp)\b/i, 'a path of one machine'],
    [
      new RegExp(['\\bregistry', '\\.[a-z0-9.-]+\\.(org|com|net|io|dev|example)\\b'].join(''), 'i'),
      'a package registry by its host name; the lock file goes without',
    ],
    [new RegExp(['^\\s*"', 'resolved":'].join(''), 'm'), 'where packages were fetched from; npm finds them by name and integrity'],
  ];

  test('no machine path, no registry host', () => {
    const found: string[] = [];
    for (const path of repositoryFiles().filter(isText)) {
      const text = readText(path);
      for (const [pattern, what] of SAYINGS) {
        const at = pattern.exec(text);
        if (at) found.push(`${path}:${text.slice(0, at.index).split('\n').length} says ${what}: ${at[0].trim()}`);
      }
    }
    expect(found).toEqual([]);
  });

  test('no text holds a control character as it is: tools take it for no text, and nobody sees it', () => {
    // A published test suite is as it was published.
    const own = repositoryFiles().filter((path) => isText(path) && !path.startsWith('tests/published/data/'));
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
    const found = own.filter((path) => /[\u0000-\u0008\u000b\u000c\u000e-\u001f]/.test(readText(path)));
    expect(found).toEqual([]);
  });

  test('no committed file is over half a megabyte', () => {
    const big = repositoryFiles().filter((path) => isText(path) && readText(path).length > 500_000);
    expect(big).toEqual([]);
  });
});
