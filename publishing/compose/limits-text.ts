/** Limits of a measurement as printed: one line a model, or one for all where they are the same. */
import {
  attributesIn,
  type LibraryFacts,
  type Limit,
  limitFor,
  limitsOf,
  type Measurement,
  printDual,
  type Quantity,
} from '../../procedures-schema/index.ts';
import { modelsOf } from './edition.ts';
import { type Scope, tableNamed } from './scope.ts';

export interface PrintedLimit {
  /** undefined: all models printed. */
  readonly model?: string;
  readonly limit: Limit;
  readonly text: string;
}

export function limitsPrinted(measurement: Measurement, scope: Scope): readonly PrintedLimit[] {
  const models = modelsOf(scope);
  const table = measurement.table === undefined ? undefined : tableNamed(scope, measurement.table);
  const all = scope.facts.head.models.map(({ name }) => name);
  const { limits } = limitsOf(measurement, table, all.length === 0 ? models : all, 'point', attributesIn(scope.input.library.registers));
  const rows = models.flatMap((model): PrintedLimit[] => {
    const limit = limitFor(limits, model);
    return limit === undefined ? [] : [{ model, limit, text: limitText(limit, scope) }];
  });
  const first = rows[0];
  if (first === undefined || rows.length !== models.length || rows.some((row) => row.text !== first.text)) return rows;
  return [{ limit: first.limit, text: first.text }];
}

/** "0 to 4 mm (0 to 0.15 in)", second unit as the house wants it. */
export function limitText(
  limit: Limit,
  scope: { readonly input: { readonly library: LibraryFacts }; readonly words: Scope['words'] },
): string {
  const { lower, upper, unit } = limit;
  const house = scope.input.library.registers.house.units;
  if (lower === undefined && upper === undefined) return scope.words.noLimit;
  const form: Quantity['form'] = lower === undefined ? 'at most' : upper === undefined ? 'at least' : 'range';
  const quantity: Quantity = { form, unit, text: '', ...(lower ? { lower } : {}), ...(upper ? { upper } : {}) };
  return printDual(quantity, house);
}
