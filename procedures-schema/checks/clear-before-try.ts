/** People are clear before the try-out: Appendix A, step 7. */

import type { LabelledStep } from '../numbering/index.ts';
import type { ProcedureCheck } from './check.ts';
import { eachAction } from './visit.ts';

export const clearBeforeTry: ProcedureCheck = {
  id: 'clear-before-try',
  scope: 'procedure',
  severity: 'warning',
  question: 'Is everyone clear before isolation is tried with the control?',
  why: 'The try-out is done because the machine may still be live. Then nobody may stand in it.',
  source: '29 CFR 1910.147 Appendix A, step 7 (non-mandatory): nobody exposed',
  cases: [
    { name: 'tried with people at the machine', finds: 1, body: '@SAFE\n', change: [['Send everyone clear', '']] },
    {
      name: 'only the reader stands clear',
      finds: 1,
      body: '@SAFE\n',
      change: [
        ['Send everyone clear', ''],
        ['Press the [start button]', '#. Stand clear and press the [start button]: the drum must not turn.'],
      ],
    },
    { name: 'clear first', finds: 0 },
  ],
  *run({ file, read }) {
    let clear = false;
    /** The reader is told to stand clear, which is half of it. */
    let aside: LabelledStep | undefined;
    for (const { action, step, span } of eachAction(read)) {
      if (action.kind === 'stand-clear') aside = step;
      if (action.kind === 'clear-people' || action.kind === 'call') clear = true;
      if (action.kind === 'restore') clear = false;
      if (action.kind !== 'try-out' || clear) continue;
      clear = true;
      const half = aside === step;
      yield {
        file,
        span,
        ...(half ? { severity: 'advice' as const } : {}),
        message: `Step ${step.fullLabel} tries the control, and nobody ${half ? 'but the reader ' : ''}was sent clear.`,
        actual: 'no step that sends people clear',
        expected: 'a step before this one that sends everyone clear of the machine',
        steps: [step.fullLabel],
      };
    }
  },
};
