import { readFileSync, statSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { dataFolder, forBrowser } from '../../../electron/host/start.ts';
import { newFolder } from '../../support/host.ts';

// XDG Base Directory Specification for Linux; the others: common practice, no source.
test.each([
  ['win32', { LOCALAPPDATA: path.resolve('local') }, path.join(path.resolve('local'), 'Handsclear')],
  ['darwin', {}, path.join(os.homedir(), 'Library', 'Application Support', 'Handsclear')],
  ['linux', {}, path.join(os.homedir(), '.local', 'state', 'handsclear')],
  ['linux', { XDG_STATE_HOME: path.resolve('state') }, path.join(path.resolve('state'), 'handsclear')],
  ['linux', { HANDSCLEAR_DATA: 'own' }, path.resolve('own')],
] as const)("the user's own data on %s with %j", (platform, environment, folder) => {
  expect(dataFolder(platform, environment)).toBe(folder);
});

test('the address stands on no command line where others could read it and nobody tells who asks', async () => {
  const address = 'http://127.0.0.1:1/?code=secret';
  expect(await forBrowser(address, newFolder(), 'linux')).toBe(address);
  const given = await forBrowser(address, newFolder(), 'darwin');
  expect(given).not.toContain('secret');
  const file = fileURLToPath(given);
  expect(readFileSync(file, 'utf8')).toContain(`url=${address}"`);
  if (process.platform !== 'win32') expect((statSync(file).mode & 0o777).toString(8)).toBe('600');
});
