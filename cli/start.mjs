/**
 * `npm start [LIBRARY]`: opens the app. In the desktop shell where its binary is there, else in this machine's browser at the loopback
 * address; says which.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildApp, host, page, root, setUp } from './setup.mjs';

await setUp();
await buildApp();

const asked = process.argv[2];
const sample = join(root, 'sample-procedures');
const open = asked === undefined ? sample : resolve(asked);
if (!existsSync(join(open, 'library.yaml'))) {
  console.error(`"${asked}" is not a library: it has no library.yaml.`);
  process.exit(2);
}
const shell = shellBinary();
if (shell === undefined) {
  console.log(`No desktop shell is installed here, so Handsclear opens in your browser, on ${open}.`);
  const { start } = await import(pathToFileURL(host).href);
  await start({ page, sample, open });
} else {
  const done = spawnSync(shell, [join(root, 'dist', 'main.mjs'), open], { stdio: 'inherit' });
  process.exitCode = done.status ?? 1;
}

/** Where the shell's package put its binary, if it did and the shell's own part is built. */
function shellBinary() {
  const folder = join(root, 'node_modules', 'electron');
  const note = join(folder, 'path.txt');
  if (!existsSync(note) || !existsSync(join(root, 'dist', 'main.mjs'))) return undefined;
  const binary = join(folder, 'dist', readFileSync(note, 'utf8').trim());
  return existsSync(binary) ? binary : undefined;
}
