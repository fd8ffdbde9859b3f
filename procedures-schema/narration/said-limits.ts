/** The limits of what a step measures, said and shown: one for all models where they are the same, else each by its model. */
import { eachBlock, type LibraryFacts, type ProcedureFacts } from '../checks/index.ts';
import { attributesIn, type Limit, limitFor, limitsOf, printDual, printQuantity, type Quantity } from '../quantities/index.ts';
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
  const table = [...eachBlock([...facts.tree.preface, ...facts.tree.sections.flatMap(({ blocks }) => blocks)], 'table')].find(
    ({ id }) => id !== undefined && id === measurement.table,
  );
  const all = facts.head.models.map(({ name }) => name);
  const { limits } = limitsOf(measurement, table, all.length === 0 ? models : all, 'point', attributesIn(library.registers));
  const rows = models.flatMap((model) => {
    const limit = limitFor(limits, model);
    const quantity = limit === undefined ? undefined : quantityOf(limit);
    return quantity === undefined
      ? []
      : [{ model, said: plain(printQuantity(quantity)), shown: plain(printDual(quantity, library.registers.house.units)) }];
  });
  const [first] = rows;
  if (!first) return { said: '', screen: [] };
  if (rows.every((row) => row.said === first.said) && rows.length === models.length)
    return { said: words.limits(measurement.name, first.said), screen: [`${measurement.name}: ${first.shown}`] };
  const screen = rows.map((row) => `${measurement.name}, ${row.model}: ${row.shown}`);
  if (rows.length > MOST_SAID) return { said: words.limitsShown(measurement.name), screen };
  return { said: words.limits(measurement.name, rows.map((row) => words.limitsFor(row.model, row.said)).join('; ')), screen };
}

/** Paper holds a value and its unit together by a no-break space; captions and screens do it their own way. */
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

function quantityOf({ lower, upper, unit }: Limit): Quantity | undefined {
  if (lower === undefined && upper === undefined) return undefined;
  const form: Quantity['form'] = lower === undefined ? 'at most' : upper === undefined ? 'at least' : 'range';
  return { form, unit, text: '', ...(lower ? { lower } : {}), ...(upper ? { upper } : {}) };
}
