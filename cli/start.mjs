/**
 * `npm start [LIBRARY] [--browser]`: opens the app. In the desktop shell where its binary is there, else in this machine's browser at the
 * loopback address; says which, and why.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildApp, buildShell, host, page, root, setUp } from './setup.mjs';

const USAGE = 'npm start opens the sample library, npm start -- FOLDER your own; npm start -- --browser always takes the browser.';
const words = process.argv.slice(2);
if (words.includes('--help') || words.includes('-h')) {
  console.log(USAGE);
  process.exit(0);
}
const [asked, ...others] = words.filter((word) => !word.startsWith('-'));
const strange = words.find((word) => word.startsWith('-') && word !== '--browser');
if (strange !== undefined) refuse(`There is no option ${strange}. ${USAGE}`);
if (others.length > 0)
  refuse(`One library is opened at a time, not "${others[0]}" too. A folder with spaces in its name wants quotation marks around it.`);
const sample = join(root, 'sample-procedures');
const open = asked === undefined ? sample : resolve(asked);

if (!existsSync(open)) refuse(`There is no folder "${asked}": nothing stands at ${open}.`);
if (!existsSync(join(open, 'library.yaml')))
  refuse(`"${asked}" is not a library: it has no library.yaml. Give the folder that holds library.yaml, registers/ and procedures/.`);
await setUp();
const shell = shellBinary(words, process.platform, process.env);
if (shell.binary === undefined) {
  await buildApp();
  console.log(`${shell.why} Handsclear opens in your browser, on ${open}.`);
  const { start } = await import(pathToFileURL(host).href);
  await start({ page, sample, open });
} else {
  await buildShell();
  console.log(`Handsclear opens in its own window, on ${open}.`);
  const done = spawnSync(shell.binary, [root, open], { stdio: 'inherit' });
  if (done.error || done.status !== 0)
    console.error(
      `The desktop shell ended with ${done.error?.message ?? done.signal ?? done.status}. "npm start -- --browser" opens in the browser instead.`,
    );
  process.exitCode = done.status ?? 1;
}

function refuse(sentence) {
  console.error(sentence);
  process.exit(2);
}

/** Where the shell's package put its binary; or why it is not to be used. */
function shellBinary(given, platform, environment) {
  if (given.includes('--browser')) return { why: 'As you asked,' };
  const folder = join(root, 'node_modules', 'electron');
  const note = join(folder, 'path.txt');
  const dist = environment.ELECTRON_OVERRIDE_DIST_PATH ?? join(folder, 'dist');
  const name = existsSync(note) ? readFileSync(note, 'utf8').trim() : 'electron';
  const binary = join(dist, name);
  if (!existsSync(binary)) return { why: 'The desktop shell is not installed here ("npx install-electron" would fetch it), so' };
  if (platform === 'linux' && !environment.DISPLAY && !environment.WAYLAND_DISPLAY)
    return { why: 'There is no screen for the desktop shell, so' };
  return { binary };
}
