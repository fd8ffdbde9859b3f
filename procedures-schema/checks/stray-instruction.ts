/** What reads like an instruction but is no step: a paragraph between steps, or a numbered list under a heading of prose. */
import { type Prose, proseSpan } from '../format/index.ts';
import { opensWithOrder, readProse, type Sentence } from '../reading/index.ts';
import type { ProcedureCheck } from './check.ts';
import { HANDS_OR_LIVE, INSIDE } from './hands-or-live.ts';
import { paragraphContext } from './paragraph-context.ts';

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
    {
      name: 'steps that fell under a heading of prose',
      finds: 1,
      body: '## Background\n\nThe blade wears.\n\n#. Clean the [scraper].\n   ^^^^\n#. Clean the [scraper] again.\n\n@SAFE\n@CLOSE\n',
    },
    {
      name: 'a numbered list of what there is',
      finds: 0,
      body: '## Background\n\nThe mixer has two zones:\n\n#. the drum bay\n#. the drive bay\n\n@SAFE\n@CLOSE\n',
    },
  ],
  *run({ file, tree, names, head }, { registers }) {
    const context = paragraphContext({ names, head }, registers);
    // An order opens with its verb: an action that begins where the sentence does. One that sends hands in is told before others.
    const orderIn = (prose: Prose): Sentence | undefined => {
      const orders = readProse(prose, context).sentences.filter(
        (sentence) =>
          (sentence.status === 'read' && sentence.actions.some((action) => action.at === sentence.at)) ||
          (sentence.status === 'unread' && opensWithOrder(sentence.text)),
      );
      return orders.find(isGrave) ?? orders[0];
    };
    for (const section of tree.sections) {
      for (const block of section.blocks) {
        if (section.prose && block.kind === 'steps') {
          const step = block.steps.find(({ lead }) => orderIn(lead) !== undefined);
          const order = step && orderIn(step.lead);
          if (step === undefined || order === undefined) continue;
          yield {
            file,
            span: proseSpan(step.lead, order.at, order.end),
            // A list of steps that nobody proves, in a text that may be proved else.
            severity: 'error',
            message: `"${order.text}" is numbered, but stands under "${section.title}", which is prose: it is no step, and the list is not proved.`,
            actual: `a numbered list under "${section.title}"`,
            expected: 'a heading of its own above the steps',
          };
          continue;
        }
        if (section.prose || block.kind !== 'paragraph' || !section.blocks.some(({ kind }) => kind === 'steps')) continue;
        const order = orderIn(block.prose);
        if (order === undefined) continue;
        yield {
          file,
          span: proseSpan(block.prose, order.at, order.end),
          ...(isGrave(order) ? { severity: 'error' as const } : {}),
          message: `"${order.text}" reads like something to do, and is no step.`,
          actual: 'a paragraph between the steps',
          expected: 'a numbered step, or a paragraph inside the step it explains',
        };
      }
    }
  },
};

/** Done without a step it would pass by the proof: a hand at work, energy cut off or let in, or what cannot be read of a thing inside. */
const isGrave = ({ status, actions, mentions }: Sentence): boolean =>
  status === 'unread' ? mentions.some(({ thing }) => INSIDE.has(thing.kind)) : actions.some(({ kind }) => HANDS_OR_LIVE.has(kind));
