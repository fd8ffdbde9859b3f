/** A paragraph in a procedure section that reads like an instruction but is no step. */
import { proseSpan } from '../format/index.ts';
import { opensWithOrder, readProse } from '../reading/index.ts';
import { familiesOf } from '../registers/index.ts';
import type { ProcedureCheck } from './check.ts';

export const strayInstruction: ProcedureCheck = {
  id: 'stray-instruction',
  scope: 'procedure',
  severity: 'warning',
  question: 'Is every instruction a numbered step?',
  why: 'An instruction outside the numbering cannot be referred to, ticked off or proved, and is easily passed over.',
  source: 'format rule F7; IEC/IEEE 82079-1 (from memory): number steps in order of doing',
  cases: [
    {
      name: 'an order between two steps',
      finds: 1,
      work: '#. Clean the [scraper].\n\nRemove the lint from the drum.\n^^^^\n\n#. Read the [air gauge].',
    },
    {
      name: 'a remark between two steps',
      finds: 0,
      work: '#. Clean the [scraper].\n\nThe edge is harder than it looks.\n\n#. Read the [air gauge].',
    },
  ],
  *run({ file, tree, names, head }, { registers }) {
    const context = {
      names,
      registers,
      families: familiesOf(head, registers),
      language: 'en',
      kind: 'paragraph',
      measurements: head.measurements,
      roles: head.roles.map(({ name }) => name),
    } as const;
    for (const section of tree.sections) {
      if (section.prose || !section.blocks.some((block) => block.kind === 'steps')) continue;
      for (const block of section.blocks) {
        if (block.kind !== 'paragraph') continue;
        // An order opens with its verb: an action that begins where the sentence does.
        const order = readProse(block.prose, context).sentences.find(
          (sentence) =>
            (sentence.status === 'read' && sentence.actions.some((action) => action.at === sentence.at)) ||
            (sentence.status === 'unread' && opensWithOrder(sentence.text)),
        );
        if (order === undefined) continue;
        yield {
          file,
          span: proseSpan(block.prose, order.at, order.end),
          message: `"${order.text}" reads like something to do, and is no step.`,
          actual: 'a paragraph between the steps',
          expected: 'a numbered step, or a paragraph inside the step it explains',
        };
      }
    }
  },
};
