/** `npm run screens`, second part: the gallery of printed pages in README.md, from what the command line prints, rasterised by poppler. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from '../../cli/setup.mjs';
import { launch } from './desk.ts';

const folder = mkdtempSync(join(tmpdir(), 'handsclear-gallery-'));
const browser = await launch();
await gallery(
  'guide-pages',
  pages('OM-8010', [
    1,
    'It shows the state that is required',
    'Find what the machine does',
    'Wait 10 min by the stopwatch',
    'swing the service strut in',
    'Each code opens it',
    'Every value that is measured',
    'The pages on which each thing',
  ]),
);
await gallery('leaf-pages', [
  ...pages('OM-3140', [1, 2], ['--edition', 'short']),
  ...pages('OM-3140', [6, 7], ['--large-type', '--model', 'DL-25']),
]);
await browser.close();
rmSync(folder, { recursive: true, force: true });

/** Pages of a print as PNG: by number, counted from one, or the first on which these words stand. */
function pages(number: string, wanted: readonly (number | string)[], more: readonly string[] = []): readonly Buffer[] {
  const name = `${number}${more.join('')}`;
  const file = join(folder, `${name}.pdf`);
  const line = ['print', number, '--library', join(root, 'sample-procedures'), '--to', file, ...more];
  const run = spawnSync(process.execPath, [join(root, 'cli/handsclear.mjs'), ...line], { encoding: 'utf8' });
  if (run.status !== 0) throw new Error(run.stderr);
  // Form feeds part the pages.
  const texts = execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' }).split('\f');
  return wanted.map((which) => {
    const page = typeof which === 'number' ? which : 1 + texts.findIndex((text) => text.includes(which));
    if (page === 0) throw new Error(`no page of ${number} says "${which}"`);
    execFileSync('pdftoppm', ['-r', '80', '-png', '-f', `${page}`, '-l', `${page}`, file, join(folder, `${name}-${page}`)]);
    const made = readdirSync(folder).find((one) => one.startsWith(`${name}-${page}-`) && one.endsWith('.png'));
    return readFileSync(join(folder, made ?? ''));
  });
}

async function gallery(name: string, shown: readonly Buffer[]): Promise<void> {
  const page = await browser.newPage({ viewport: { width: 1600, height: 100 }, deviceScaleFactor: 1 });
  const images = shown.map((one) => `<img src="data:image/png;base64,${one.toString('base64')}">`).join('');
  await page.setContent(
    `<style>body{margin:0;padding:14px;background:#e3dfd4;display:grid;grid-template-columns:repeat(4,1fr);gap:14px}img{width:100%;box-shadow:0 1px 4px #0003}</style>${images}`,
  );
  await page.screenshot({ path: join(root, '.readme', `${name}.png`), fullPage: true });
  await page.close();
}
