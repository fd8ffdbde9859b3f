/** Limits as a form, whether they stand in the front matter or in a table of the text: which of them the caret means. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { Insertion } from './insertion.ts';
import type { LimitsForm, TypedCell } from './limits-form-model.ts';
import { frontEdits, frontForm } from './limits-front-form.ts';
import { tableEdits, tableForm } from './limits-table-form.ts';

/** What the caret stands in, or what the step at the caret is held against. */
export function limitsForm(
  facts: ProcedureFacts,
  library: LibraryFacts,
  offset: number,
): LimitsForm | { readonly ok: false; readonly reason: string } {
  const table = tableForm(facts, library, offset);
  return 'ok' in table ? (frontForm(facts, library, offset) ?? table) : table;
}

/** Only what is typed otherwise than before is written. `at` is the form's. */
export function limitsEdits(facts: ProcedureFacts, library: LibraryFacts, at: number, typed: readonly TypedCell[]): Insertion {
  return frontEdits(facts, library, at, typed) ?? tableEdits(facts, library, at, typed);
}
