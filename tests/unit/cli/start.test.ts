/** `npm start` as typed wrongly: told at once, before anything is built or opened. */
import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';

const start = (...words: string[]) => spawnSync(process.execPath, ['cli/start.mjs', ...words], { encoding: 'utf8', timeout: 20_000 });

test.each([
  [['--brower'], 'There is no option --brower. npm start opens the sample library'],
  [['nowhere at all'], 'There is no folder "nowhere at all": nothing stands at '],
  [['tests'], '"tests" is not a library: it has no library.yaml. Give the folder that holds library.yaml'],
  [['sample-procedures', 'of', 'mine'], 'wants quotation marks around it'],
])('%j is refused in words', (words, said) => {
  const { status, stdout, stderr } = start(...words);
  expect([status, stdout, stderr]).toEqual([2, '', expect.stringContaining(said)]);
});

test('help opens nothing', () => {
  const { status, stdout } = start('--help');
  expect([status, stdout]).toEqual([0, expect.stringContaining('npm start -- FOLDER')]);
});
