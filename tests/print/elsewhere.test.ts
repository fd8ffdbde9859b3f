/**
 * The sample prints have the same bytes on other machines: in a worker of a browser, and on another major version of Node, whose engine is years apart.
 * The other Node is named by HANDSCLEAR_OTHER_NODE; `.ci/run` fetches one.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, expect, test } from 'vitest';
import { hasBrowser, launch } from '../support/desk.ts';
import { sample } from '../support/sample.ts';
import { otherNode } from '../support/tools.ts';

const looked: Record<string, string> = JSON.parse(readFileSync('tests/print/hashes.json', 'utf8'));
/** Below the packages, because the other Node looks for them from where the program lies. */
mkdirSync('dist', { recursive: true });
const folder = mkdtempSync(join('dist', 'elsewhere-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function bundled(file: string, platform: 'node' | 'browser'): Promise<string> {
  const outfile = join(folder, platform === 'node' ? `${file}.mjs` : `${file}.js`);
  await build({
    entryPoints: [`tests/support/${file}.ts`],
    outfile,
    bundle: true,
    platform,
    format: platform === 'node' ? 'esm' : 'iife',
    target: platform === 'node' ? 'node20' : 'es2022',
    ...(platform === 'node' ? { packages: 'external' as const } : { conditions: ['worker'] }),
    logLevel: 'error',
  });
  return outfile;
}

test.skipIf(!hasBrowser())('in a worker of a browser', async () => {
  const { texts, paths, input, fonts } = await sample();
  const code = readFileSync(await bundled('prints-in-worker', 'browser'), 'utf8');
  const browser = await launch();
  try {
    const page = await browser.newPage();
    const packed = Object.entries(fonts).map(([face, bytes]) => [face, Buffer.from(bytes as Uint8Array).toString('base64')]);
    const made = await page.evaluate(
      // Text, because the page knows no types: worker from a string, fonts from base64, one answer.
      `((code, given, packed) => new Promise((resolve, reject) => {
        const worker = new Worker(URL.createObjectURL(new Blob([code], { type: 'text/javascript' })));
        worker.onmessage = ({ data }) => resolve(data);
        worker.onerror = (event) => reject(new Error(event.message));
        const fonts = Object.fromEntries(packed.map(([face, text]) => [face, Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0))]));
        worker.postMessage({ ...given, fonts });
      }))(${[code, { texts, paths, figures: [...input.figures] }, packed].map((one) => JSON.stringify(one)).join(',')})`,
    );
    expect(made).toEqual(looked);
  } finally {
    await browser.close();
  }
});

test.skipIf(otherNode() === undefined)('on another major version of Node', async () => {
  const program = await bundled('prints-on-node', 'node');
  const { stdout, stderr } = spawnSync(otherNode() as string, [program], { encoding: 'utf8', maxBuffer: 1e8 });
  expect(stderr).toBe('');
  const { node, hashes } = JSON.parse(stdout) as { node: string; hashes: unknown };
  expect(node.split('.')[0]).not.toBe(process.version.split('.')[0]);
  expect(hashes).toEqual(looked);
});
