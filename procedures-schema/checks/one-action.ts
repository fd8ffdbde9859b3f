/** Steps that pack many actions. */
import type { ProcedureCheck } from './check.ts';

const ACTIONS = 4;

export const oneAction: ProcedureCheck = {
  id: 'one-action',
  scope: 'procedure',
  severity: 'advice',
  question: 'Does every step hold one action, or a few that are done together?',
  why: 'In a step of five actions the fourth is forgotten, and a tick beside it says nothing.',
  source: 'ASD-STE100 (from memory): one instruction a sentence unless done together; IEC/IEEE 82079-1 (from memory), conciseness',
  cases: [
    {
      name: 'five in a row',
      finds: 1,
      work: '#. Clean the [air hose]. Clean the [scraper]. Look at the [scraper]. Read the [air gauge]. Clean the [air hose]. Clean the [drum pin].\n   ^^^^^^',
    },
    { name: 'one', finds: 0, work: '#. Clean the [scraper].' },
  ],
  *run({ file, read }) {
    for (const { at, lead } of read.steps) {
      const actions = lead.sentences
        .flatMap((sentence) => sentence.actions)
        .filter((action) => action.kind !== 'use' && action.kind !== 'refer');
      if (actions.length > ACTIONS)
        yield {
          file,
          span: at.step.lead.span,
          message: `Step ${at.fullLabel} holds ${actions.length} actions.`,
          actual: `${actions.length} actions`,
          expected: 'substeps, or several steps',
          steps: [at.fullLabel],
        };
    }
  },
};
