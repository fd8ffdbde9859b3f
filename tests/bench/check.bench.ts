/**
 * `npm run bench:check`: how fast a whole library is checked, cold, as a ratio to the stock Markdown parse alone of the same text in the
 * same run, and what one edit costs. Ratios travel between machines; the figures beside them do not. Prints; judges nothing.
 *
 *   npm run bench:check -- [procedures, 1000] [rounds, 3]
 */
import remarkDirective from 'remark-directive';
import remarkFrontmatter from 'remark-frontmatter';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { checkLibrary, newEngine } from '../../procedures-schema/index.ts';
import { chance, GENERATED_REGISTERS, generateLibrary, generateProcedure } from '../support/generate.ts';

const count = Number(process.argv[2] ?? 1000);
const rounds = Number(process.argv[3] ?? 3);
const library = generateLibrary(count);
const procedures = library.filter((file) => file.path.startsWith('procedures/'));

describe();
const ratios: number[] = [];
for (let round = 1; round <= rounds; round += 1) {
  const parse = timed(stockParse);
  const check = timed(() => checkLibrary(library));
  ratios.push(check / parse);
  console.log(
    `round ${round}   stock parse ${rate(parse)} files/s   whole check ${rate(check)} files/s   check takes ${(check / parse).toFixed(2)} of the parse`,
  );
}
console.log(`whole check, cold: ${median(ratios).toFixed(2)} times the stock parse alone (median of ${rounds}; aim 0.80)`);
edits();

/** What is measured, so that the figures can be judged: how alike the generated files are decides what a cache is worth. */
function describe(): void {
  const lines = procedures.flatMap((file) => file.text.split('\n').filter((line) => line.trim() !== ''));
  const bytes = procedures.reduce((sum, file) => sum + file.text.length, 0);
  const distinct = (new Set(lines).size / lines.length) * 100;
  console.log(
    `${procedures.length} procedures, ${Math.round(lines.length / procedures.length)} written lines and ${(bytes / procedures.length / 1000).toFixed(1)} kB each; ${distinct.toFixed(0)} % of the lines stand once`,
  );
  const { counts, read } = checkLibrary(generateLibrary(20));
  console.log(
    `findings in the first 20: ${counts.error} errors, ${counts.warning} warnings; ${read.unread} of ${read.sentences} sentences not understood`,
  );
}

/** unified and remark-parse with stock tables and the rest of gfm, front matter and directives: to the syntax tree, no more. */
function stockParse(): void {
  const processor = unified().use(remarkParse).use(remarkGfm).use(remarkFrontmatter).use(remarkDirective);
  for (const file of procedures) processor.parse(file.text);
}

/** New words in the middle of a 300-line procedure of a small library, one edit at a time. */
function edits(): void {
  const long = generateProcedure(8999, 36);
  const engine = newEngine();
  engine.apply([...GENERATED_REGISTERS, ...procedures.slice(0, 20), long]);
  const next = chance(31);
  let { text } = long;
  const times: number[] = [];
  for (let i = 0; i < 220; i += 1) {
    const middle = text.indexOf('Wipe the seat', Math.floor(text.length * (0.45 + next() / 10)));
    const start = text.indexOf('along', middle);
    const end = text.indexOf(' mm', start);
    const words = `along ${100 + i * 7}`;
    const edited = text.slice(0, start) + words + text.slice(end);
    text = edited;
    times.push(timed(() => engine.apply([{ path: long.path, text: edited }])));
  }
  const warm = times.slice(20).sort((a, b) => a - b);
  const at = (share: number): string => (warm[Math.floor(warm.length * share)] ?? 0).toFixed(2);
  console.log(
    `one edit in a procedure of ${text.split('\n').length} lines: median ${at(0.5)} ms, 95 of 100 below ${at(0.95)} ms (aim 10 ms; ${warm.length} edits, the first 20 left out)`,
  );
}

function timed(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

function rate(ms: number): string {
  return ((procedures.length / ms) * 1000).toFixed(0).padStart(5);
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
}
