/** The machine is stopped by its own control before it is isolated: (d)(2). */
import type { ProcedureCheck } from './check.ts';
import { eachAction } from './visit.ts';

export const shutdownFirst: ProcedureCheck = {
  id: 'shutdown-first',
  scope: 'procedure',
  severity: 'error',
  question: 'Is the machine stopped by its normal control before it is isolated?',
  why: 'An isolator opened under load draws an arc, and a machine stopped half way holds its load where nobody expects it.',
  source: '29 CFR 1910.147(d)(2), orderly shutdown before (d)(3) isolation',
  cases: [
    { name: 'isolated while it runs', finds: 1, change: [['Stop the mixer with', '']] },
    { name: 'stopped first', finds: 0 },
    { name: 'nothing is isolated', finds: 0, body: '## Work\n\n#. Read the [air gauge].\n' },
  ],
  *run({ file, head, read, machines }) {
    // A procedure that is handed an open, locked-out machine was stopped by the one before it.
    if (head.startsWith === 'opened and locked out') return;
    const stoppable = new Set(machines.flatMap((machine) => machine.controls.flatMap((control) => control.stops)));
    const cuts = new Set(
      machines.flatMap((machine) =>
        machine.sources.filter((source) => stoppable.has(source.name)).flatMap((source) => source.isolate.map((use) => use.point)),
      ),
    );
    for (const { action, step, span } of eachAction(read)) {
      // A selector that stops the machine, put to its off.
      const selected =
        action.kind === 'control' &&
        action.things.some(({ thing }) =>
          machines.some(({ controls }) =>
            controls.some(
              ({ name, stops, off }) => name === thing.name && stops.length > 0 && off !== undefined && off === action.position,
            ),
          ),
        );
      if (action.kind === 'shut-down' || action.kind === 'call' || selected) return;
      if (action.kind !== 'isolate' || !action.things.some((use) => cuts.has(use.thing.name))) continue;
      yield {
        file,
        span,
        message: `Step ${step.fullLabel} isolates the machine before it was stopped.`,
        actual: 'no stop before the first isolation',
        expected: 'a step before this one that stops the machine by its normal control',
        steps: [step.fullLabel],
      };
      return;
    }
  },
};
