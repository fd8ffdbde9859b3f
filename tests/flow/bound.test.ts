/** Eighteen facts, each asked twice and so remembered, make more states than the bound: the verdict is "not proved", and it is said where. */
import { expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { expandCase } from '../support/cases.ts';

const COLOURS = ['red', 'blue', 'green', 'white', 'black', 'grey', 'brown', 'pink', 'gold'];
const facts = COLOURS.flatMap((colour) => [`the label is ${colour}`, `the tag is ${colour}`]);
const asked = facts.map((fact) => `#. If ${fact}, clean the [scraper].`).join('\n');

test('past the bound nothing is called proved', () => {
  const { files } = expandCase({ name: 'many facts', finds: 1, work: `${asked}\n${asked}` });
  const { findings, facts: library } = checkLibrary(files, []);
  const found = findings.filter(({ check }) => check === 'proof-bounded');
  expect(found.map(({ file, range }) => [file, range.start.line])).toEqual([['procedures/FX-100.md', 2]]);
  expect(new Set(library.procedures[0]?.flow.verdicts.map(({ verdict }) => verdict))).toEqual(new Set(['not proved']));
});
