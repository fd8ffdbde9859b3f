/** A notice stands before what it protects from, never after. */
import type { ProcedureCheck } from './check.ts';
import { eachNotice } from './visit.ts';

export const noticePlace: ProcedureCheck = {
  id: 'notice-place',
  scope: 'procedure',
  severity: 'error',
  question: 'Does every notice stand before the step it guards?',
  why: 'A warning read after the hand has moved is a report.',
  source: 'ANSI Z535.6 embedded notices (kinds from memory); DITA 1.3 step model: notes come before the command',
  cases: [
    {
      name: 'after the last step',
      finds: 1,
      work: '#. Clean the [scraper].\n\n:::caution\n^^^^^^^^^^\nThe edge is sharp. It can cut your hand. Keep your hand off it.\n:::',
    },
    {
      name: 'under the words of the step it guards',
      finds: 1,
      work: '#. Clean the [scraper].\n\n   :::caution\n   ^^^^^^^^^^\n   The edge is sharp. It can cut your hand. Keep your hand off it.\n   :::',
    },
    {
      name: 'before the step',
      finds: 0,
      work: ':::caution\nThe edge is sharp. It can cut your hand. Keep your hand off it.\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'in the step, before its substeps',
      finds: 0,
      work: '#. Clean the [scraper] like this.\n\n   :::caution\n   The edge is sharp. It can cut your hand. Keep your hand off it.\n   :::\n\n   a. Read the [air gauge].\n   b. Look at the [scraper].',
    },
  ],
  *run({ file, tree }) {
    for (const section of tree.sections) {
      if (section.prose) continue;
      const after = section.blocks.map((block, index) => ({ block, index })).filter(({ block }) => block.kind === 'notice');
      const lastSteps = section.blocks.map((block) => block.kind).lastIndexOf('steps');
      for (const { block, index } of after)
        if (lastSteps >= 0 && index > lastSteps)
          yield draft(file, block.span, 'No step of this section follows this notice.', 'before the step it guards');
    }
    for (const { notice, step } of eachNotice(tree.sections)) {
      if (!step) continue;
      const index = step.children.indexOf(notice);
      const rest = step.children
        .slice(index + 1)
        .some((child) => child.kind === 'substeps' || child.kind === 'branches' || child.kind === 'objects');
      if (index >= 0 && !rest && step.lead.text !== '')
        yield draft(
          file,
          notice.span,
          'This notice stands after the words of the step it guards.',
          'before the step, so that it is read first',
        );
    }
  },
};

function draft(file: string, span: { start: number; end: number }, message: string, expected: string) {
  return { file, span, message, actual: 'after', expected };
}
