/**
 * Makes a fresh clone ready with nothing but Node: packages, schema validators, the bundled command line. Each part is
 * redone only when it is missing or stale, so that every script may start with it. Plain Node: it runs before any package is there.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

export const root = dirname(dirname(fileURLToPath(import.meta.url)));
const at = (...names) => join(root, ...names);

/** Everything, in the order in which one part needs the other. */
export async function setUp() {
  needNode();
  installPackages();
  buildSchemas();
  await buildCommand();
}

const MINIMUM = [20, 19];

function needNode() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major > MINIMUM[0] || (major === MINIMUM[0] && minor >= MINIMUM[1])) return;
  stop(`Handsclear needs Node ${MINIMUM.join('.')} or newer; this is Node ${process.versions.node}.`);
}

// ---------------------------------------------------------------- packages

function installPackages() {
  const why = installIsStale();
  if (!why) return;
  say(`Installing packages (${why}) ...`);
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const done = spawnSync(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (done.status !== 0) stop('npm ci failed; its message stands above. If package.json was changed by hand, run "npm install" once.');
  const still = installIsStale();
  if (still) stop(`Packages were installed, but ${still}.`);
}

/**
 * Why an install is due, or undefined. npm notes what it put down in node_modules/.package-lock.json, and writes that
 * file last, so comparing it with package-lock.json also tells an install that was cut short.
 */
export function installIsStale(folder = root) {
  const wanted = readJson(join(folder, 'package-lock.json'))?.packages;
  const asked = readJson(join(folder, 'package.json'));
  const found = readJson(join(folder, 'node_modules', '.package-lock.json'))?.packages;
  if (!wanted || !asked) return 'package.json or package-lock.json cannot be read';
  for (const group of ['dependencies', 'devDependencies'])
    if (!same(asked[group], wanted[''][group])) return `${group} in package.json differ from package-lock.json`;
  if (!found) return 'node_modules is missing';
  for (const [place, entry] of Object.entries(wanted)) {
    if (place === '') continue;
    const there = found[place];
    // A package for another machine is rightly absent.
    if (!there && entry.optional) continue;
    if (!there) return `${place} is missing`;
    if (there.version !== entry.version || there.integrity !== entry.integrity) return `${place} is another version`;
  }
  return undefined;
}

function same(a = {}, b = {}) {
  const sorted = (record) => JSON.stringify(Object.entries(record).sort(([x], [y]) => (x < y ? -1 : 1)));
  return sorted(a) === sorted(b);
}

// ---------------------------------------------------------------- schema validators

const SCHEMAS = 'procedures-schema/schemas';
const COMPILER = 'cli/build/compile-schemas.mjs';

function buildSchemas() {
  if (!existsSync(at(COMPILER))) return;
  const inputs = [COMPILER, ...filesBelow(SCHEMAS, /\.json$/, /generated/), 'package-lock.json'];
  const stamp = at(SCHEMAS, 'generated', '.built-from');
  const hash = hashOf(inputs);
  if (readText(stamp) === hash) return;
  say('Compiling the schema validators ...');
  run([at(COMPILER)], 'The schema validators could not be built.');
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, hash);
}

// ---------------------------------------------------------------- the command line

/** Some packages are CommonJS inside and ask for Node's own modules by require. */
export const requires = {
  js: "import { createRequire as handsclearRequire } from 'node:module'; const require = handsclearRequire(import.meta.url);",
};
export const bundle = at('dist', 'handsclear.mjs');
const SOURCES = ['procedures-schema', 'publishing', 'electron/host', 'cli'];

async function buildCommand() {
  await bundled('command line', 'cli/main.ts', bundle, SOURCES);
}

/** Bundles one entry for Node when a source changed since. */
async function bundled(what, entry, outfile, sources, more = {}) {
  const inputs = [...sources.flatMap((folder) => filesBelow(folder, /\.(ts|mjs|js|json)$/)), 'cli/build/lean.mjs', 'package-lock.json'];
  const stamp = `${outfile}.built-from`;
  const hash = hashOf(inputs);
  if (existsSync(outfile) && readText(stamp) === hash) return;
  say(`Building the ${what} ...`);
  const { build } = await import(pathToFileURL(at('node_modules', 'esbuild', 'lib', 'main.js')).href);
  const { lean } = await import('./build/lean.mjs');
  // Written beside and moved into place, so that two terminals never run half a bundle.
  const fresh = `${outfile}.${process.pid}.mjs`;
  await build({
    absWorkingDir: root,
    entryPoints: [entry],
    outfile: fresh,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    external: [],
    banner: requires,
    logLevel: 'error',
    plugins: [lean()],
    ...more,
  }).catch(() => stop(`The ${what} could not be built; the reason stands above.`));
  renameSync(fresh, outfile);
  writeFileSync(stamp, hash);
}

// ---------------------------------------------------------------- the app

export const host = at('dist', 'host.mjs');
export const page = at('dist', 'renderer');
export const shell = at('dist', 'main.mjs');
export const preload = at('dist', 'preload.cjs');

/** The page and its host, for `npm start` and the tests of the app; the command line needs neither. */
export async function buildApp() {
  await bundled('host', 'electron/host/start.ts', host, ['electron/host']);
  await buildPage();
}

/** The desktop shell besides. Its own package stays outside: the binary brings it. */
export async function buildShell() {
  await bundled('shell', 'electron/main.ts', shell, ['electron'], { external: ['electron'] });
  // In the sandbox there is no way but CommonJS, and nothing to be required but Electron's own part.
  const sandboxed = { external: ['electron'], format: 'cjs', platform: 'browser', target: 'es2023', banner: {} };
  await bundled("shell's preload", 'electron/preload.ts', preload, ['electron'], sandboxed);
  await buildPage();
}

async function buildPage() {
  const inputs = [
    ...['renderer', 'procedures-schema', 'publishing', 'electron/host/contract'].flatMap((folder) =>
      filesBelow(folder, /\.(tsx?|mjs|js|json|css|html)$/),
    ),
    'cli/build/lean.mjs',
    'package-lock.json',
  ];
  const stamp = at('dist', '.page-built-from');
  const hash = hashOf(inputs);
  if (existsSync(join(page, 'index.html')) && readText(stamp) === hash) return;
  say('Building the page ...');
  run([at('node_modules', 'vite', 'bin', 'vite.js'), 'build', 'renderer', '--logLevel', 'error'], 'The page could not be built.');
  writeFileSync(stamp, hash);
}

// ---------------------------------------------------------------- small things

function filesBelow(folder, wanted, unwanted = /(^|\/)node_modules(\/|$)/) {
  const out = [];
  const walk = (path) => {
    for (const entry of readdirSync(at(path), { withFileTypes: true })) {
      const inside = `${path}/${entry.name}`;
      if (unwanted.test(inside)) continue;
      if (entry.isDirectory()) walk(inside);
      else if (wanted.test(entry.name)) out.push(inside);
    }
  };
  if (existsSync(at(folder))) walk(folder);
  return out.sort();
}

function hashOf(paths) {
  const hash = createHash('sha256');
  for (const path of paths)
    hash
      .update(path)
      .update('\0')
      .update(readFileSync(at(path)))
      .update('\0');
  return hash.digest('hex');
}

function readText(path) {
  return existsSync(path) ? readFileSync(path, 'utf8') : undefined;
}

function readJson(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return undefined;
  }
}

function run(args, sentence) {
  // A test run has another NODE_ENV, and React is built by it: what is built is always what ships.
  const env = { ...process.env, NODE_ENV: 'production' };
  const done = spawnSync(process.execPath, args, { cwd: root, env, stdio: ['ignore', 2, 2] });
  if (done.status !== 0) stop(sentence);
}

/** Set-up talks on standard error: standard output belongs to the command that follows. */
function say(sentence) {
  process.stderr.write(`${sentence}\n`);
}

function stop(sentence) {
  say(sentence);
  process.exit(2);
}

if (process.argv[1] && pathToFileURL(process.argv[1]).href === import.meta.url) {
  await setUp();
  if (process.argv.includes('--shell')) await buildShell();
}
