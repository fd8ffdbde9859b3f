/** Remarks and signatures as text: what is written is read back, what cannot be read is said, and remarks go with their words. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  EMPTY_RECORD,
  linesOfGuide,
  type PinLine,
  pinsOf,
  type ReviewRecord,
  readRecord,
  recordPath,
  writeRecord,
} from '../../../procedures-schema/review/index.ts';
import { sample } from '../../support/sample.ts';

const text = fc.string({ unit: 'grapheme', maxLength: 40 });
const said = fc.record({ by: text, on: text, says: text });
const records: fc.Arbitrary<ReviewRecord> = fc.record({
  remarks: fc.array(
    fc
      .tuple(
        said,
        fc.record({ words: text, label: text, answers: fc.array(said, { maxLength: 3 }) }),
        fc.option(fc.record({ by: text, on: text })),
      )
      .map(([own, pin, settled]) => ({ ...own, ...pin, ...(settled ? { settled } : {}) })),
    { maxLength: 4 },
  ),
  signatures: fc.array(
    fc
      .tuple(
        fc.record({ by: text, on: text, as: text, revision: text, hash: text, outright: fc.array(text, { maxLength: 3 }) }),
        fc.option(text),
      )
      .map(([own, verdict]) => ({ ...own, ...(verdict === null ? {} : { verdict }) })),
    {
      maxLength: 3,
    },
  ),
  accepted: fc.array(fc.record({ key: text, by: text, words: text }), { maxLength: 3 }),
});

describe('a record of a review', () => {
  test('is read back as it was written, whatever was said', () => {
    fc.assert(
      fc.property(records, (record) => {
        const { record: again, faults } = readRecord('review/X.yaml', writeRecord('X', record));
        expect(faults).toEqual([]);
        expect(again).toEqual(record);
      }),
    );
  });

  test('that is empty or absent holds nothing and has no fault', () => {
    expect(readRecord('review/X.yaml', '')).toEqual({ record: EMPTY_RECORD, faults: [] });
    expect(readRecord('review/X.yaml', writeRecord('X', EMPTY_RECORD))).toEqual({ record: EMPTY_RECORD, faults: [] });
  });

  test('that was damaged by hand says so, keeps the rest, and never throws', () => {
    const damaged = 'remarks:\n  - { by: AB }\n  - { words: w, label: "1", by: AB, on: 2026-01-02, says: Why? }\nmarks: 3\n';
    const { record, faults } = readRecord('review/X.yaml', damaged);
    expect(record.remarks.map(({ says }) => says)).toEqual(['Why?']);
    expect(faults).toEqual(['"marks" is not known here.', 'Entry 1 of "remarks" cannot be read.']);
    fc.assert(fc.property(fc.string({ maxLength: 200 }), (any) => void readRecord('review/X.yaml', any)));
  });

  test('lies where its document number says, and nowhere else', () => {
    expect(recordPath('OM-3140')).toBe('review/OM-3140.yaml');
    expect(recordPath('../../x')).toBe('review/..-..-x.yaml');
  });
});

describe('a remark', () => {
  const line = (words: string, label: string, at: number): PinLine => ({ words, label, line: at, span: { start: at, end: at } });
  const lines: readonly PinLine[] = [
    line('Open the cover.', 'A 1', 1),
    line('Take out the pin.', 'A 2', 2),
    line('Open the cover.', 'B 1', 3),
  ];
  const remark = (words: string, label: string) => ({ words, label, by: 'AB', on: '2026-01-02', says: 'Why?', answers: [] });

  test('goes with its words; where they stand twice, with its label', () => {
    expect(pinsOf([remark('Open the cover.', 'B 1'), remark('Take out the pin.', 'A 7')], lines)).toMatchObject([
      { how: 'same words', label: 'B 1' },
      { how: 'same words', label: 'A 2' },
    ]);
  });

  test('stays at the likest step when the words changed, and says when they are gone', () => {
    expect(pinsOf([remark('Take out the long pin.', 'A 2'), remark('Grease the chain.', 'A 1')], lines)).toMatchObject([
      { how: 'reworded', label: 'A 2' },
      { how: 'lost' },
    ]);
  });

  test('on a guide goes with a paragraph of the foreword, a part, or a document', async () => {
    const guide = (await sample()).report.facts.guides.find(({ head }) => head.id === 'OM-8010');
    if (!guide) throw new Error('no such guide');
    const own = linesOfGuide(guide);
    expect(own.slice(-3).map(({ words, label }) => [words, label])).toEqual([
      ['OM-2110', 'Vertical baler'],
      ['OM-2120', 'Vertical baler'],
      ['OM-2130', 'Vertical baler'],
    ]);
    expect(own.map(({ words }) => words)).toContain('Dock leveller');
    expect(own[0]?.words).toMatch(/^This guide holds the service procedures/);
    for (const { span, line: at } of own) expect(guide.tree.source.text.slice(0, span.start).split('\n')).toHaveLength(at);
    const spans = own.map(({ span }) => guide.tree.source.text.slice(span.start, span.end));
    expect(spans).toContain('## Dock leveller');
  });
});
