/**
 * `npm run demo`: the very commands a writer would type, on the sample library: check it, print its bound guides, hand out a checklist of
 * every procedure. Names what it wrote. Plain Node, since packages may not be there yet.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, setUp } from './setup.mjs';

const LIBRARY = 'sample-procedures';
const OUT = 'out';

await setUp();
const { main } = await import(new URL('../dist/handsclear.mjs', import.meta.url).href);
process.chdir(root);

await step('check', LIBRARY);
const written = [];
for (const id of idsIn('guides')) await step('print', id, '--library', LIBRARY, '--to', wrote(`${OUT}/${id}.pdf`));
for (const id of idsIn('procedures')) await step('checklist', id, '--library', LIBRARY, '--to', wrote(`${OUT}/checklists/${id}.json`));
console.log(`\nWritten:\n${written.map((path) => `  ${path}`).join('\n')}`);

/** One command as typed, in this process; the demo stops where it would stop a writer. */
async function step(...words) {
  console.log(`\n$ handsclear ${words.join(' ')}`);
  const code = await main(words);
  if (code !== 0) process.exit(code);
}

function wrote(path) {
  written.push(path);
  return path;
}

/** The document numbers of a folder's files, in the order of the files. */
function idsIn(folder) {
  return readdirSync(join(root, LIBRARY, folder))
    .filter((name) => name.endsWith('.md'))
    .sort()
    .map((name) => /^id:\s*["']?([^"'\s]+)/m.exec(readFileSync(join(root, LIBRARY, folder, name), 'utf8'))?.[1])
    .filter((id) => id !== undefined);
}
