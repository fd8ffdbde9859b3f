/**
 * The bound of the search. Eighteen facts asked twice are no matter: none of them has to be remembered. Eighteen parts that may each be out
 * are more states than the bound as a whole, and few in slices. Facts asked inside a repeat must all be remembered, which is more than
 * the bound in each slice: the verdict is "not proved", and it is said where.
 */
import { expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { expandCase } from '../support/cases.ts';

const COLOURS = ['red', 'blue', 'green', 'white', 'black', 'grey', 'brown', 'pink', 'gold'];
const facts = COLOURS.flatMap((colour) => [`the label is ${colour}`, `the tag is ${colour}`]);
const asked = facts.map((fact) => `#. If ${fact}, clean the [scraper].`).join('\n');
const GAP =
  'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}';

const PADS = facts.map((_, index) => `${COLOURS[index % COLOURS.length]} ${index < COLOURS.length ? 'pad' : 'felt'}`);
const SCRAPER = '      scraper: {zone: drum bay}';
const WITH_PADS: [string, string] = [SCRAPER, [SCRAPER, ...PADS.map((pad) => `      ${pad}: {zone: drum bay}`)].join('\n')];

function proved(work: string, more: { readonly front?: string; readonly equipment?: readonly [string, string][] } = {}) {
  const { files } = expandCase({ name: 'many facts', finds: 1, front: GAP, work, ...more });
  const { findings, facts: library } = checkLibrary(files, []);
  const { flow } = library.procedures[0] ?? {};
  return {
    errors: findings.filter(({ severity }) => severity === 'error').map(({ check, message }) => `${check}: ${message}`),
    bounded: findings.filter(({ check }) => check === 'proof-bounded').map(({ file, range }) => [file, range.start.line]),
    verdicts: new Set(flow?.verdicts.map(({ verdict }) => verdict)),
    states: flow?.explored.states ?? 0,
  };
}

test('facts asked twice need not be remembered where no answer matters to a rule', () => {
  const { bounded, verdicts, states } = proved(`${asked}\n${asked}`);
  expect(bounded).toEqual([]);
  expect(verdicts).toEqual(new Set(['proved']));
  expect(states).toBeLessThan(1000);
});

test('past the bound nothing is called proved', () => {
  const loop = `#. {#first} Adjust the [scraper].\n${asked}\n#. {#last} Measure the [scraper gap] with the [feeler gauge].\n#. Repeat [steps #first to #last] until the [scraper gap] is within the limits.`;
  const { bounded, verdicts } = proved(loop);
  expect(bounded).toEqual([['procedures/FX-100.md', 2]]);
  expect(verdicts).toEqual(new Set(['not proved']));
});

test('eighteen parts that may each be out are walked in slices', () => {
  const out = facts.map((fact, index) => `#. If ${fact}, remove the [${PADS[index]}].`);
  const back = facts.map((fact, index) => `#. If ${fact}, refit the [${PADS[index]}].`);
  const right = proved([...out, ...back].join('\n'), { front: '', equipment: [WITH_PADS] });
  expect(right.bounded).toEqual([]);
  expect(right.errors).toEqual([]);
  expect(right.verdicts).toEqual(new Set(['proved']));
  // 2^18 states of the parts alone, as a whole.
  expect(right.states).toBeLessThan(2 ** 18);
  const wrong = proved([...out, ...back.toSpliced(7, 1)].join('\n'), { front: '', equipment: [WITH_PADS] });
  expect(wrong.errors).toEqual([expect.stringMatching(/pink pad/i)]);
  expect(wrong.verdicts).toEqual(new Set(['refuted']));
});

test('fourteen readings that two steps go by are remembered only where they must be', () => {
  const own = PADS.slice(0, 14);
  const measurements = own.map(
    (pad) =>
      `  ${pad} gap:\n    quantity: length\n    at: middle of the pad\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}`,
  );
  const front = `tools: [feeler gauge]\nmeasurements:\n${measurements.join('\n')}`;
  const read = own.map((pad) => `#. Measure the [${pad} gap] with the [feeler gauge].`);
  const out = own.map((pad) => `#. If the [${pad} gap] is over the limit, remove the [${pad}].`);
  const back = own.map((pad) => `#. If the [${pad} gap] is over the limit, refit the [${pad}].`);
  const right = proved([...read, ...out, ...back].join('\n'), { front, equipment: [WITH_PADS] });
  expect(right.bounded).toEqual([]);
  expect(right.errors).toEqual([]);
  expect(right.verdicts).toEqual(new Set(['proved']));
  const wrong = proved([...read, ...out, ...back.toSpliced(3, 1)].join('\n'), { front, equipment: [WITH_PADS] });
  expect(wrong.errors).toEqual([expect.stringMatching(/white pad/i)]);
});

test('what is called more deeply than can be walked is not proved', () => {
  const numbers = Array.from({ length: 16 }, (_, index) => `FX-${200 + index}`);
  const head = (id: string): string =>
    `---\nid: ${id}\ntitle: One of many\nrevision: "A"\ndate: 2026-01-15\nmodels: [DM-10, DM-20]\nstarts with: closed\nends with: closed\ntime: 5 min\npeople: 1\naudience: authorized technician\ntools: none\nconsumables: none\nparts: none\nprotection: none\n---\n`;
  const files = Object.fromEntries(
    numbers.map((id, index) => [
      `procedures/${id}.md`,
      `${head(id)}\n## Look\n\n#. ${index + 1 < numbers.length ? `Do [${numbers[index + 1]}].` : 'Look at the [air gauge].'}\n`,
    ]),
  );
  const { files: all } = expandCase({ name: 'deep', finds: 1, body: `## Look\n\n#. Do [${numbers[0]}].`, files });
  const { findings, facts: library } = checkLibrary(all, []);
  const flow = library.procedures.find(({ read }) => read.head.id === 'FX-100')?.flow;
  expect(new Set(flow?.verdicts.map(({ verdict }) => verdict))).toEqual(new Set(['not proved']));
  expect(
    findings.filter(({ check, file }) => check === 'proof-bounded' && file.endsWith('FX-100.md')).map(({ message }) => message),
  ).toEqual([expect.stringContaining('longer or deeper')]);
});
