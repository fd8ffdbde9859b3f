/**
 * `npm run bench:assist`: what the help for a writer costs beside one long procedure of a larger library, as a ratio to the bare
 * remark-parse of the same text in the same run. Ratios travel between machines; the figures beside them do not. Prints; judges nothing.
 *
 *   npm run bench:assist -- [procedures, 300]
 */
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import {
  complete,
  findText,
  frontMatterForm,
  hover,
  marginOf,
  rename,
  spellable,
  textsOf,
  usesOf,
} from '../../procedures-schema/assist/index.ts';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { GENERATED_REGISTERS, generateProcedure } from '../support/generate.ts';

const count = Number(process.argv[2] ?? 300);
const files = [...GENERATED_REGISTERS, ...Array.from({ length: count }, (_, n) => generateProcedure(n + 1, n === 0 ? 36 : 0))];
const { facts: library, findings } = checkLibrary(files);
const facts = library.procedures.find(({ source }) => source.lineStarts.length > 250);
if (!facts) throw new Error('no long procedure');
const { text } = facts.source;
const texts = [...textsOf(library)].map(([path, own]) => ({ path, text: own }));
const at = (words: string, add = words.length): number => text.lastIndexOf(words) + add;
const isolator = { kind: 'thing', thing: 'point', name: 'main isolator', family: library.registers.families[0]?.name ?? '' } as const;

const base = median(() => unified().use(remarkParse).parse(text));
console.log(`${facts.source.lineStarts.length} lines among ${count} procedures; bare remark-parse of it ${base.toFixed(2)} ms`);
const line = (what: string, work: () => unknown, rounds = 60): void => {
  const own = median(work, rounds);
  console.log(`${what.padEnd(34)} ${own.toFixed(2).padStart(8)} ms   ${(own / base).toFixed(3)} of the parse`);
};
line('margin, all variants', () => marginOf(facts, library));
line('margin, one variant', () => marginOf(facts, library, facts.machines[0]?.variant.name));
line('completion in a reference', () => complete(facts.file, at('Look along the [') + 1, text, library));
line('completion at a step start', () => complete(facts.file, at('1. Wipe', 5), text, library));
line('completion of a unit', () => complete(facts.file, at(' N·m', 2), text, library));
line('completion in front matter', () => complete(facts.file, text.indexOf('models:') + 10, text, library));
line('hover', () => hover(facts.file, at('Look along the [') + 1, library));
line('front matter form', () => frontMatterForm(facts, library, findings));
line('words to spell', () => spellable(facts));
line('uses in the whole library', () => usesOf(isolator, library), 10);
line('renaming in the whole library', () => rename(isolator, 'supply disconnect', library), 10);
line('finding plain text in all', () => findText(texts, 'torque wrench'), 10);
line('finding a pattern in all', () => findText(texts, '\\b\\d+ N.m', { pattern: true }), 10);

function median(work: () => unknown, rounds = 60): number {
  const times: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const start = performance.now();
    work();
    times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[rounds >> 1] ?? 0;
}
