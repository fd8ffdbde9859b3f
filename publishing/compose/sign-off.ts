/** The row of boxes at the end of a bound procedure: whose machine, who did it, and what was found and left. The paper checklist has its own. */
import { eachAction, type Measurement } from '../../procedures-schema/index.ts';
import type { EntryCell, Flow } from '../book.ts';
import { readTwice } from './entries.ts';
import { limitsPrinted } from './limits-text.ts';
import type { Scope } from './scope.ts';
import { wordsOf } from './spoken.ts';
import { boxUnit } from './units-edition.ts';

/** Nothing where it was not asked for. */
export function signOff(scope: Scope): Flow {
  if (!scope.input.signOff) return [];
  const { head } = scope.facts;
  const { short, book } = wordsOf(scope.input);
  const cell = (label: string, share: number, options?: readonly string[]): EntryCell => ({
    label,
    share,
    field: `${head.id}, ${short.sign}, ${label}`,
    says: `${head.id}, ${label}`,
    ...(options === undefined ? {} : { options }),
  });
  const results = resultsOf(scope).map((measurement): EntryCell[] => {
    const unit = measurement.sensed === undefined ? unitOf(measurement, scope) : '';
    const named = (when: string): string => `${measurement.name}, ${when}${unit === '' ? '' : ` (${unit})`}`;
    const answers = measurement.sensed === undefined ? undefined : [book.passes, book.fails];
    return [cell(named(short.asFound), 500, answers), cell(named(short.asLeft), 500, answers)];
  });
  return [
    { kind: 'heading', level: 2, text: short.sign, anchor: `doc ${head.id} sign`, bookmark: false, goesOn: true },
    {
      kind: 'entries',
      rows: [[cell(short.serial, 640), cell(short.date, 360)], ...results, [cell(short.done, 640), cell(short.initials, 360)]],
    },
  ];
}

/** What is brought within its limits; in a procedure with a test run, else, all that is measured. */
function resultsOf(scope: Scope): readonly Measurement[] {
  const { head, read } = scope.facts;
  const twice = readTwice(scope);
  const brought = head.measurements.filter(({ name }) => twice.has(name));
  if (brought.length > 0) return brought;
  return eachAction(read).some(({ action }) => action.kind === 'test-run') ? head.measurements : [];
}

function unitOf(measurement: Measurement, scope: Scope): string {
  const unit = limitsPrinted(measurement, scope)[0]?.limit.unit;
  return unit === undefined ? '' : (boxUnit(unit, scope.input) ?? '');
}
