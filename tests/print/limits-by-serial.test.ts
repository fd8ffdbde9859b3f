/** Limits that are formulas over attributes, as printed and as data: the values, a row for each range of serial numbers, none of another model. */
import { expect, test } from 'vitest';
import { checkLibrary, type ProcedureFacts } from '../../procedures-schema/index.ts';
import type { Book, BookBlock, Inline } from '../../publishing/book.ts';
import { checklistOf, procedureBook } from '../../publishing/index.ts';
import { expandCase } from '../support/cases.ts';

const TABLE = `| model | scraper gap, lower (mm) | scraper gap, upper | note |
|---|---|---|---|
| DM-10 | 0.1 | 1.5 mm | - |
| DM-20 | 0.1 % of drum width, to 0.01 mm | 0.4 % of drum width, to 0.01 mm | seen from below |`;

const { facts: library } = checkLibrary(
  expandCase({
    name: '',
    finds: 0,
    front:
      'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: table gap',
    work: `#. Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go on.\n   - Otherwise stop and call the works office.\n\n${TABLE}\n\n{#gap}`,
    equipment: [
      ['  DM-20: {family', '  DM-20: {family: drum mixer, serials: [{to: 99, drum width: 300 mm}, {from: 100, drum width: 410 mm}]}'],
    ],
  }).files,
);
const facts = library.procedures[0] as ProcedureFacts;
const input = { library, figures: new Map(), draft: true };
const words = (inline: readonly Inline[]): string =>
  inline
    .map(({ text }) => text)
    .join('')
    .replaceAll('\u00a0', ' ');

/** The rows of the first table of the book under this first heading, wherever it stands. */
function rowsUnder(heading: string, book: Book): readonly (readonly (readonly Inline[])[])[] {
  const found: BookBlock[] = [];
  const look = (value: unknown): void => {
    if (value === null || typeof value !== 'object') return;
    if ('kind' in value && value.kind === 'table') found.push(value as BookBlock);
    Object.values(value).forEach(look);
  };
  look(book.chapters);
  for (const block of found) if (block.kind === 'table' && words(block.head[0] ?? []) === heading) return block.rows;
  return [];
}

const tableIn = (book: Book): readonly (readonly string[])[] => rowsUnder('Model', book).map((row) => row.map(words));

const UP_TO = ['DM-20 (serial up to 99)', '0.30', '1.20 mm (0.0472 in)', 'seen from below'];
const FROM = ['DM-20 (serial from 100)', '0.41', '1.64 mm (0.0645 in)', 'seen from below'];

test('on paper a formula stands as its value, under a heading with the unit as the number alone', () => {
  expect(tableIn(procedureBook(facts, input))).toEqual([['DM-10', '0.1', '1.5 mm', '-'], UP_TO, FROM]);
});

test('the edition of one model has its ranges and no other model', () => {
  expect(tableIn(procedureBook(facts, { ...input, model: 'DM-20' }))).toEqual([UP_TO, FROM]);
  expect(tableIn(procedureBook(facts, { ...input, model: 'DM-10' }))).toEqual([['DM-10', '0.1', '1.5 mm', '-']]);
});

test('as data, each range with its exact ends', () => {
  const told = JSON.stringify(checklistOf(facts, input));
  expect(told).toContain(JSON.stringify({ model: 'DM-20', serial: { to: 99 }, lower: '0.3', upper: '1.2' }).slice(0, -1));
  expect(told).toContain(JSON.stringify({ model: 'DM-20', serial: { from: 100 }, lower: '0.41', upper: '1.64' }).slice(0, -1));
});

test('in the list of what is measured whom a limit is for is strong, so that a name at the end of a line is not read as another entry', () => {
  const [row] = rowsUnder('Measurement', procedureBook(facts, input));
  const strong = row?.[2]?.filter(({ kind }) => kind === 'strong').map((one) => words([one]));
  expect(strong).toEqual(['DM-10:', 'DM-20 (serial up to 99):', 'DM-20 (serial from 100):']);
  expect(words(row?.[2] ?? []).split('\u2028')).toEqual([
    'DM-10: 0.1 to 1.5 mm (0.004 to 0.059 in)',
    'DM-20 (serial up to 99): 0.30 to 1.20 mm (0.0119 to 0.0472 in)',
    'DM-20 (serial from 100): 0.41 to 1.64 mm (0.0162 to 0.0645 in)',
  ]);
});
