/** A set of checklists that was made for one model says how many of the guide's procedures it holds: it looks like the whole of it. */
import { expect, test } from 'vitest';
import type { BookBlock } from '../../publishing/book.ts';
import { shortGuide, shortProcedure } from '../../publishing/index.ts';
import { sample } from '../support/sample.ts';

const said = (blocks: readonly BookBlock[]): string => JSON.stringify(blocks);

test('on every checklist of the set, and on none of the whole', async () => {
  const { report, input } = await sample();
  const guide = report.facts.guides.find(({ head }) => head.id === 'OM-8010');
  if (guide === undefined) throw new Error('no OM-8010');
  const all = shortGuide(guide, input).chapters.length;
  const { chapters } = shortGuide(guide, { ...input, model: 'DL-25' });
  expect(chapters.length).toBeLessThan(all);
  for (const { blocks } of chapters)
    expect(said(blocks)).toContain(`This set holds ${chapters.length} of the ${all} procedures of OM-8010: those for DL-25.`);
  for (const { blocks } of shortGuide(guide, input).chapters) expect(said(blocks)).not.toContain('This set holds');
  const lip = report.facts.procedures.find(({ head }) => head.id === 'OM-3140');
  if (lip === undefined) throw new Error('no OM-3140');
  for (const { blocks } of shortProcedure(lip, { ...input, model: 'DL-25' }).chapters) expect(said(blocks)).not.toContain('This set holds');
});
