/** A control is no isolating device: L7. */
import type { ProcedureCheck } from './check.ts';
import { eachAction } from './visit.ts';

export const controlLocked: ProcedureCheck = {
  id: 'control-locked',
  scope: 'procedure',
  severity: 'error',
  question: 'Are locks put on isolating points, never on buttons and selector switches?',
  why: 'A control switches a circuit, not the energy. A fault behind it starts the machine with the lock still on.',
  source: '29 CFR 1910.147(b), energy isolating device; rule L7',
  cases: [
    {
      name: 'a lock on the stop button',
      finds: 1,
      change: [['Read the [air gauge]', '#. Read the [air gauge]: it must show 0 bar.\n#. Put your lock and tag on the [stop button].']],
    },
    { name: 'a lock on the isolator', finds: 0 },
  ],
  *run({ file, read }) {
    for (const { action, step, span } of eachAction(read)) {
      if (action.kind !== 'lock' && action.kind !== 'isolate') continue;
      for (const { thing } of action.things)
        if (thing.kind === 'control')
          yield {
            file,
            span,
            message: `Step ${step.fullLabel} takes the ${thing.name} for an isolating point; it is a control.`,
            actual: thing.name,
            expected: 'an isolating point of the register: a switch, valve, plug or block that cuts the energy itself',
            steps: [step.fullLabel],
          };
    }
  },
};
