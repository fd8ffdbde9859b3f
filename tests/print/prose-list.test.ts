/** A numbered list in a section of prose is no part of the walk: it prints as it was typed, and nothing fails on it. */
import { expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { checklistOf, drawPages, procedureBook, shortProcedure } from '../../publishing/index.ts';
import { sample } from '../support/sample.ts';

test('steps that fall under a heading of prose, as when its own heading is broken by a key', async () => {
  const { texts, paths, input, fonts } = await sample();
  const broken = texts.map((file) =>
    file.path.includes('OM-1110') ? { ...file, text: file.text.replace('## Fit the', 'x## Fit the') } : file,
  );
  expect(broken).not.toEqual(texts);
  const { facts } = checkLibrary(broken, paths);
  const own = facts.procedures.find(({ head }) => head.id === 'OM-1110');
  if (own === undefined) throw new Error('The procedure is gone.');
  const all = { ...input, library: facts, draft: true };
  for (const book of [procedureBook(own, all), shortProcedure(own, all)]) {
    const words = JSON.stringify(book);
    expect(words).toContain('Fit the');
    expect(drawPages(book, fonts).pages.length).toBeGreaterThan(0);
  }
  expect(checklistOf(own, all)).toBeDefined();
});
