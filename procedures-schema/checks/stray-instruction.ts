/** A paragraph in a procedure section that reads like an instruction but is no step. */
import { formCheck } from './form.ts';

export const strayInstruction = formCheck(
  {
    id: 'stray-instruction',
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
  },
  ['stray-instruction'],
);
