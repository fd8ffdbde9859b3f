/** What is ordered outside the steps is in no proof: where it sends hands in or energy, it stands in the way of print, and else is warned of. */
import { expect, test } from 'vitest';
import { checkLibrary, type Severity } from '../../../procedures-schema/index.ts';
import { expandCase } from '../../support/cases.ts';

function gradesOf(text: { readonly work: string } | { readonly body: string }): readonly Severity[] {
  const { files } = expandCase({ name: 'an order that is no step', finds: 0, ...text });
  return checkLibrary(files)
    .findings.filter(({ check }) => check === 'stray-instruction')
    .map(({ severity }) => severity);
}
const between = (paragraph: string): readonly Severity[] =>
  gradesOf({ work: `#. Clean the [scraper].\n\n${paragraph}\n\n#. Read the [air gauge].` });

test('steps under a heading of prose, broken or chosen', () => {
  expect(gradesOf({ body: '## Background\n\n#. Read the [air gauge].\n\n@SAFE\n@CLOSE\n' })).toEqual(['error']);
  expect(gradesOf({ body: '## Background\n\nThe blade wears.\n\n##Clean it\n\n#. Clean the [scraper].\n\n@SAFE\n@CLOSE\n' })).toEqual([
    'error',
  ]);
});

test('a paragraph between steps that sends hands in, or energy', () => {
  expect(between('Clean the scraper once more.')).toEqual(['error']);
  expect(between('Press the start button.')).toEqual(['error']);
  expect(between('Read the air gauge. Clean the scraper once more.')).toEqual(['error']);
});

test('one that only has somebody look or write', () => {
  expect(between('Write down the time.')).toEqual(['warning']);
  expect(between('The edge is harder than it looks.')).toEqual([]);
});
