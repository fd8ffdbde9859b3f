/** The command line as a program in a script: a reader that goes away early changes no exit code, and output that is lost is told. */
import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { requires } from '../../../cli/setup.mjs';
import { SAMPLE } from '../../support/sample.ts';

const folder = mkdtempSync(join(tmpdir(), 'handsclear-streams-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const library = join(folder, 'slips');
const program = join(folder, 'program.mjs');

beforeAll(async () => {
  cpSync(SAMPLE, library, { recursive: true });
  const file = join(library, 'procedures/OM-2120-guide-shoes.md');
  writeFileSync(file, readFileSync(file, 'utf8').replace(/^8\. Put your lock and tag on the .*$/m, '8. Wait 1 min.'));
  const entry = `import { main } from './cli/main.ts'; process.exitCode = await main(process.argv.slice(2));`;
  await build({
    stdin: { contents: entry, resolveDir: process.cwd(), loader: 'ts' },
    outfile: program,
    bundle: true,
    platform: 'node',
    format: 'esm',
    banner: requires,
    logLevel: 'error',
  });
}, 60_000);

function run(
  words: readonly string[],
  out: 'pipe' | number,
): { readonly ended: Promise<{ code: number | null; err: string }>; shut(): void } {
  const child = spawn(process.execPath, [program, ...words], { stdio: ['ignore', out, 'pipe'] });
  let err = '';
  child.stderr?.on('data', (bytes) => {
    err += bytes;
  });
  return { ended: new Promise((done) => child.on('close', (code) => done({ code, err }))), shut: () => child.stdout?.destroy() };
}

test.each([
  ['check', 1],
  ['explain', 0],
])(
  '%s ends with exit %i though nobody reads on',
  async (command, code) => {
    const begun = run(command === 'check' ? [command, library] : [command], 'pipe');
    begun.shut();
    expect((await begun.ended).code).toBe(code);
  },
  60_000,
);

test.skipIf(!existsSync('/dev/full'))(
  'a full disk behind ">" is told in a sentence, with exit 2',
  async () => {
    const { code, err } = await run(['explain'], openSync('/dev/full', 'w')).ended;
    expect([code, err]).toEqual([2, 'What was found could not all be written out: the disk is full.\n']);
  },
  60_000,
);
