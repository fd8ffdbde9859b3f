/** Sections apart from the main line, as they are printed: from where they are come to, and where the main line ends. On the sample, in every edition. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { BookBlock } from '../../publishing/book.ts';
import { procedureBook } from '../../publishing/index.ts';
import { drawingOf, layoutBook, newFontSource } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
beforeAll(async () => {
  it = await sample();
});

const wordsOf = (block: BookBlock): string => (block.kind === 'paragraph' ? block.inline.map(({ text }) => text).join('') : '');

/** Lines of this style of a procedure, each with the heading above it. */
function sent(number: string, model?: string): readonly string[] {
  const facts = it.report.facts.procedures.find(({ head }) => head.id === number);
  if (facts === undefined) throw new Error(`${number} is gone`);
  const book = procedureBook(facts, { ...it.input, ...(model === undefined ? {} : { model }) });
  const blocks = book.chapters.find((chapter) => chapter.number === number)?.blocks ?? [];
  let heading = '';
  return blocks.flatMap((block) => {
    if (block.kind === 'heading') heading = block.text;
    return block.kind === 'paragraph' && (block.style === 'sent' || block.style === 'ends') ? [`${heading} | ${wordsOf(block)}`] : [];
  });
}

describe('a section that is done only when a step asks for it', () => {
  test('names every step that calls it, and sends the reader back; one that is gone to does not', () => {
    const lines = sent('OM-3160');
    expect(lines).toContain(
      'Lock out | Only when a step sends you here: step 2 in Connect the gauge, step 5 in Read the pressure. Then go back there.',
    );
    const away = sent('OM-4130').find((line) => line.startsWith('Take out of service'));
    expect(away).toBe('Take out of service | Only when a step sends you here: step 11 in Clean the trap.');
  });

  test('the main line says where it ends, once, and only where something follows', () => {
    for (const { head, tree } of it.report.facts.procedures) {
      const withSteps = tree.sections.filter((section) => section.blocks.some(({ kind }) => kind === 'steps'));
      const lines = sent(head.id);
      const ends = lines.filter((line) => line.endsWith('Do the other sections only when a step sends you there.'));
      expect(ends, head.id).toHaveLength(withSteps.at(-1)?.aside ? 1 : 0);
      const back = lines.filter((line) => line.includes('| Go back to '));
      expect(lines, head.id).toHaveLength(ends.length + back.length + withSteps.filter(({ aside }) => aside).length);
    }
    // Where the last step says it itself, in these words or in others.
    expect(sent('OM-4130')).toContain('Finish | Fill in Records. Do the other sections only when a step sends you there.');
    expect(sent('OM-2130')).toContain('Test the interlock | Fill in Records. Do the other sections only when a step sends you there.');
  });

  test('a long one that is called says at its end where the reader came from', () => {
    expect(sent('OM-3140')).toContain('Renew the seal | Go back to step 9 in Check the drift.');
    // Gone to, not called; and short.
    expect(sent('OM-3140').filter((line) => line.startsWith('Take out of service'))).toHaveLength(1);
  });

  test('an edition for one model leads only to what it prints', () => {
    const { shaper } = newFontSource(it.fonts);
    for (const facts of it.report.facts.procedures)
      for (const { name } of facts.head.models) {
        const drawing = drawingOf(layoutBook(procedureBook(facts, { ...it.input, model: name }), shaper));
        for (let page = 0; page < drawing.count; page += 1) drawing.page(page);
        expect(
          drawing.notes().filter(({ kind }) => kind === 'dead-link'),
          `${facts.head.id} ${name}`,
        ).toEqual([]);
      }
  });
});
