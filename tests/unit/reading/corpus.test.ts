/**
 * How much of ordinary step sentences the reader reads, and that it reads nothing wrongly. The corpus is worked with while the reader
 * is written; the held-out sentences are not, so their share is the honest one.
 * Source: common practice, no source. The shares are what was reached; they may only rise.
 */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { count, gradeFile, listOf, loadSentences, problemsOf, tableOf } from '../../support/sentences.ts';

const sets = [
  { name: 'corpus', folder: join(import.meta.dirname, 'corpus'), sentences: 330, equipment: 12, exact: 0.79 },
  { name: 'held out', folder: join(import.meta.dirname, 'heldout'), sentences: 60, equipment: 3, exact: 0.8 },
];

describe.each(sets)('$name', ({ name, folder, sentences, equipment, exact }) => {
  const files = loadSentences(folder);

  test('is large enough to mean something', () => {
    expect(files.length).toBeGreaterThanOrEqual(equipment);
    expect(files.flatMap((file) => file.cases).length).toBeGreaterThanOrEqual(sentences);
  });

  test('stands on registers without fault', () => {
    expect(files.flatMap((file) => problemsOf(file).map((problem) => `${file.equipment}: ${problem}`))).toEqual([]);
  });

  test('no sentence is read wrongly, and enough are read exactly', () => {
    const rows = files.map((file) => ({ name: file.equipment, graded: gradeFile(file) }));
    const graded = rows.flatMap((row) => row.graded);
    console.log(`${name}\n${tableOf(rows)}`);
    const detail = process.env.HANDSCLEAR_LIST;
    if (detail === 'partial' || detail === 'unread') console.log(listOf(graded, detail));
    expect(listOf(graded, 'wrong')).toBe('');
    expect(count(graded, 'exact') / graded.length).toBeGreaterThanOrEqual(exact);
  });
});
