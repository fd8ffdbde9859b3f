/** Limits as a form, in tests: what it shows as lines, and what typing into it does to the text. */
import { type LimitsForm, limitsEdits, limitsForm } from '../../procedures-schema/assist/index.ts';
import { type AssistFixture, assistFixture, type FixtureChange, FX } from './assist.ts';
import { inserted } from './assist-insert.ts';

export function openedLimits({ facts, library, offset }: AssistFixture): LimitsForm {
  const form = limitsForm(facts, library, offset);
  if ('ok' in form) throw new Error(form.reason);
  return form;
}

/** "DM-10 | 0.2 mm | 0.4 mm" */
export const limitRows = (form: LimitsForm): readonly string[] => form.rows.map(({ head, cells }) => [head, ...cells].join(' | '));

/** After the cells were typed, each as row, column, text. */
export function typedLimits(change: FixtureChange, typed: readonly (readonly [number, number, string])[]) {
  const fixture = assistFixture(change);
  const { facts, library, report } = fixture;
  const cells = typed.map(([row, column, text]) => ({ row, column, text }));
  const made = limitsEdits(facts, library, openedLimits(fixture).at, cells);
  const { text, fresh } = inserted(report, FX, made);
  return { before: fixture.text, after: text, fresh, notes: made.ok ? made.notes : [] };
}
