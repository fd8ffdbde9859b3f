/** Under which headings of the library's list each document stands. */
import { describe, expect, test } from 'vitest';
import type { DocumentLine } from '../../../renderer/worker/queries/queries.ts';
import { fitting, isOnly, ONLY, type Order, shelvesOf } from '../../../renderer/write/shelves.ts';

const line = (number: string, more: Partial<DocumentLine> = {}): DocumentLine => ({
  file: `procedures/${number}.md`,
  kind: 'procedure',
  number,
  title: `Title of ${number}`,
  revision: '',
  families: [],
  models: [],
  symptoms: [],
  verdict: undefined,
  openRemarks: 0,
  signature: 'none',
  ...more,
});
const guide = (number: string, ...binds: readonly string[]): DocumentLine =>
  line(number, { file: `guides/${number}.md`, kind: 'guide', binds });

const LIBRARY = [
  line('A-1', { families: ['saw'], symptoms: ['it shakes'] }),
  line('A-2', { families: ['saw', 'oven'] }),
  line('A-3'),
  guide('G-1', 'A-3', 'A-1'),
  guide('G-2', 'A-1', 'A-9'),
  guide('G-3'),
];
const told = (order: Order, wanted = ''): readonly string[] =>
  shelvesOf(LIBRARY, order, fitting(wanted)).map(({ head, lines }) => `${head ?? '-'}: ${lines.map(({ number }) => number).join(' ')}`);

describe('the list', () => {
  test('by machine and by symptom: under each that it is for, the rest at the end', () => {
    expect(told('family')).toEqual(['saw: A-1 A-2', 'oven: A-2', '-: A-3']);
    expect(told('symptom')).toEqual(['it shakes: A-1', '-: A-2 A-3']);
  });
  test('by guide: as bound, in two guides twice, in none at the end; a guide that is empty, or binds in what is not there, stands too', () => {
    expect(told('guide')).toEqual(['G-1: A-3 A-1', 'G-2: A-1', 'G-3: ', '-: A-2']);
  });
  test('searched by guide: a guide stands when it fits, or something in it does', () => {
    expect(told('guide', 'a-1')).toEqual(['G-1: A-1', 'G-2: A-1']);
    expect(told('guide', 'G-3')).toEqual(['G-3: ']);
    expect(told('guide', ' oven ')).toEqual(['-: A-2']);
  });
  test('looked for by several words, in any order and in whatever they stand', () => {
    expect(told('family', 'title saw 2')).toEqual(['saw: A-2', 'oven: A-2']);
    expect(told('family', 'saw shakes')).toEqual(['saw: A-1']);
    expect(told('family', 'saw nothing')).toEqual([]);
  });
});

describe('only some of it', () => {
  const clean = { found: false, unsaved: false };
  const holds = (one: DocumentLine, counted = clean) => ONLY.filter((only) => isOnly(only, one, counted)).join(' ');
  const done = line('A-1', { verdict: 'proved', signature: 'fresh' });
  test.each([
    ['what is done', done, clean, 'all'],
    ['with a warning, not saved', done, { found: true, unsaved: true }, 'all found unsaved'],
    ['refuted', line('A-1', { verdict: 'refuted', signature: 'fresh' }), clean, 'all unproved'],
    ['signed and changed since', line('A-1', { verdict: 'proved', signature: 'stale' }), clean, 'all unsigned'],
    ['with a remark', line('A-1', { verdict: 'proved', signature: 'fresh', openRemarks: 2 }), clean, 'all remarks'],
    ['not known yet', line('A-1', { signature: undefined, openRemarks: undefined }), clean, 'all unproved unsigned remarks'],
  ])('%s', (_, one, counted, expected) => expect(holds(one, counted)).toBe(expected));
});
