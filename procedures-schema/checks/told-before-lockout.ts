/** People are told before controls are locked: (c)(9). */
import type { ProcedureCheck } from './check.ts';
import { eachAction } from './visit.ts';

export const toldBeforeLockout: ProcedureCheck = {
  id: 'told-before-lockout',
  scope: 'procedure',
  severity: 'warning',
  question: 'Are the people who use the machine told before it is locked out?',
  why: 'An operator who was not told looks for the fault, finds the isolator off, and switches it on.',
  source: '29 CFR 1910.147(c)(9); Appendix A, step 1',
  cases: [
    { name: 'nobody is told', finds: 1, change: [['Tell the people at the mixer that it will be stopped', '']] },
    {
      name: 'told after the stop, before the lock',
      finds: 0,
      change: [
        ['Stop the mixer with', '#. Stop the mixer with the [stop button].\n#. Tell the operator that the mixer will be locked out.'],
      ],
    },
  ],
  *run({ file, head, read }) {
    if (head.startsWith === 'opened and locked out') return;
    for (const { action, step, span } of eachAction(read)) {
      if (action.kind === 'tell' || action.kind === 'call') return;
      if (action.kind !== 'lock') continue;
      yield {
        file,
        span,
        message: `Step ${step.fullLabel} locks the machine out, and nobody was told.`,
        actual: 'no word to the people at the machine',
        expected: 'a step before this one that tells them that the machine will be stopped and locked out',
        steps: [step.fullLabel],
      };
      return;
    }
  },
};
