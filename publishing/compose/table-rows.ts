/**
 * The rows of a table as printed: formulas of limits as the values they come to, a row for each range of serial numbers where these
 * differ, and in the edition of one model no rows of others.
 */
import {
  type ComputedCell,
  holdsSerial,
  type LabelledStep,
  limitModel,
  limitModels,
  NO_UNIT,
  namedRange,
  printEnd,
  printQuantity,
  type RowLimit,
  type Table,
  tableLimits,
} from '../../procedures-schema/index.ts';
import type { Inline } from '../book.ts';
import { inlineOf } from './inline.ts';
import { decimalIn } from './language.ts';
import { rangePrinted } from './limits-text.ts';
import type { Scope } from './scope.ts';
import { unitsOf } from './units-edition.ts';

export function tableRows(table: Table, scope: Scope, from?: LabelledStep): readonly (readonly Inline[][])[] {
  const { registers } = scope.input.library;
  const { model } = scope.input;
  const mark = decimalIn(scope.input);
  const all = registers.models.map(({ name }) => limitModel(name, registers));
  const models = limitModels(scope.facts.head, registers);
  const read = scope.facts.head.measurements
    .filter((one) => one.table !== undefined && one.table === table.id)
    .map(({ name }) => tableLimits(name, table, models, mark));
  return table.rows
    .filter((row) => {
      const named = model === undefined ? undefined : namedRange(row.cells[0]?.prose.text ?? '', all);
      return named === undefined || named.model.name === model;
    })
    .flatMap((row) => {
      const limits = read.map((one) => one.limits.filter((limit) => limit.row === row));
      const widest = limits.reduce<readonly RowLimit[]>((most, own) => (own.length > most.length ? own : most), []);
      const parts = widest.length > 1 ? widest : [undefined];
      return parts.map((part) =>
        row.cells.map((cell, index): Inline[] => {
          if (part !== undefined && index === 0) return [{ kind: 'text', text: rangePrinted(part.model ?? '', part.serial, scope.words) }];
          const here = limits.map((own) => own.find(({ serial }) => holdsSerial(serial, part?.serial))?.computed.get(index));
          const computed = here.find((one) => one !== undefined);
          return computed === undefined ? inlineOf(cell.prose, scope, from) : [{ kind: 'text', text: cellText(computed, scope) }];
        }),
      );
    });
}

function cellText({ amount, end, unit, words, headed }: ComputedCell, scope: Scope): string {
  const mark = decimalIn(scope.input);
  const value = headed
    ? printQuantity({ form: 'single', nominal: amount, unit: NO_UNIT, text: '' }, mark)
    : printEnd(amount, end, unit, unitsOf(scope.input), mark);
  return words === '' ? value : `${words} ${value}`;
}
