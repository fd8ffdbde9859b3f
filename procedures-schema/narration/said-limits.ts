/** The limits of what a step measures, said and shown: one for all models where they are the same, else each by its model. */
import { type LibraryFacts, measuredOf, type ProcedureFacts } from '../checks/index.ts';
import { decimalMarkOf, limitQuantity, limitsFor, printDual, printQuantity, rangeName } from '../quantities/index.ts';
import type { Measurement } from '../registers/index.ts';
import { scriptWords as words } from './script-words.ts';

/** More models than this are shown, not said: nobody keeps five limits in mind. */
const MOST_SAID = 3;

export interface SaidLimits {
  readonly said: string;
  readonly screen: readonly string[];
}

export function saidLimits(measurement: Measurement, facts: ProcedureFacts, library: LibraryFacts, models: readonly string[]): SaidLimits {
  if (measurement.sensed) {
    const { pass, fail } = measurement.sensed;
    return { said: words.passes(pass, fail), screen: [] };
  }
  const { units, language } = library.registers.house;
  const mark = decimalMarkOf(language);
  const limits = measuredOf(facts, library.registers).find((one) => one.measurement === measurement)?.limits.limits ?? [];
  const rows = models.flatMap((model) =>
    limitsFor(limits, model).flatMap((limit) => {
      const quantity = limitQuantity(limit);
      if (quantity === undefined) return [];
      const [said, shown] = [plain(printQuantity(quantity, mark)), plain(printDual(quantity, units, mark))];
      return [{ model: rangeName(model, limit.serial), of: model, said, shown }];
    }),
  );
  const [first] = rows;
  if (!first) return { said: '', screen: [] };
  if (rows.every((row) => row.said === first.said) && models.every((model) => rows.some(({ of }) => of === model)))
    return { said: words.limits(measurement.name, first.said), screen: [`${measurement.name}: ${first.shown}`] };
  const screen = rows.map((row) => `${measurement.name}, ${row.model}: ${row.shown}`);
  if (rows.length > MOST_SAID) return { said: words.limitsShown(measurement.name), screen };
  return { said: words.limits(measurement.name, rows.map((row) => words.limitsFor(row.model, row.said)).join('; ')), screen };
}

/** Paper holds a value and its unit together by a no-break space; captions and screens do it their own way. */
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
