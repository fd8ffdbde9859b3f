/** The table from symptom to procedure: models share a column only where they are served alike, options included. */
import { expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import type { BookBlock, Inline } from '../../publishing/book.ts';
import { guideBook } from '../../publishing/index.ts';
import { sample } from '../support/sample.ts';

const OWN = 'fan shakes: {family: extraction fan, procedures: [OM-1110, OM-1120]}';

async function fansOf(procedures: string): Promise<readonly string[]> {
  const { texts, paths, input } = await sample();
  const changed = texts.map(({ path, text }) => {
    if (!path.endsWith('symptoms.yaml')) return { path, text };
    expect(text).toContain(OWN);
    return { path, text: text.replace(OWN, `fan shakes: {family: extraction fan, procedures: [${procedures}]}`) };
  });
  const { facts } = checkLibrary(changed, paths);
  const guide = facts.guides.find(({ tree }) => tree.parts.some(({ entries }) => entries.some(({ document }) => document === 'OM-1110')));
  if (guide === undefined) throw new Error('no guide has OM-1110');
  const { chapters } = guideBook(guide, { ...input, library: facts });
  const blocks = chapters.find(({ anchor }) => anchor === 'symptoms')?.blocks ?? [];
  const at = blocks.findIndex((block) => block.kind === 'heading' && /extraction fan/i.test(block.text));
  const table = blocks[at + 1] as Extract<BookBlock, { kind: 'table' }>;
  const said = (cell: readonly Inline[]): string => cell.map((one) => ('text' in one ? one.text : '')).join('');
  const row = table.rows.find((cells) => said(cells[0] ?? []).startsWith('fan shakes')) ?? [];
  return table.head.slice(1).map((head, index) => `${said(head)}: ${said(row[index + 1] ?? [])}`);
}

test('an option that only some models need parts them', async () => {
  expect(await fansOf('{do: OM-1110, models: [EF-315, EF-450]}, {do: OM-1110, models: [EF-630], options: [speed drive]}')).toEqual([
    'EF-315, EF-450: OM-1110',
    'EF-630: OM-1110 only with speed drive',
  ]);
});

test('the same order for all is one column', async () => {
  expect(await fansOf('OM-1110, OM-1120')).toEqual(['EF-315, EF-450, EF-630: OM-1110, then OM-1120']);
});
