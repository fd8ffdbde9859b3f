/**
 * The bound of the search. Eighteen facts asked twice are no matter: none of them has to be remembered. Asked inside a repeat they all
 * must be, which makes more states than the bound: the verdict is "not proved", and it is said where.
 */
import { expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { expandCase } from '../support/cases.ts';

const COLOURS = ['red', 'blue', 'green', 'white', 'black', 'grey', 'brown', 'pink', 'gold'];
const facts = COLOURS.flatMap((colour) => [`the label is ${colour}`, `the tag is ${colour}`]);
const asked = facts.map((fact) => `#. If ${fact}, clean the [scraper].`).join('\n');
const GAP =
  'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}';

function proved(work: string) {
  const { files } = expandCase({ name: 'many facts', finds: 1, front: GAP, work });
  const { findings, facts: library } = checkLibrary(files, []);
  const { flow } = library.procedures[0] ?? {};
  return {
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
