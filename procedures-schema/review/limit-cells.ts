/** The limits of one procedure as a guide prints them, a text for each measurement and model. */
import { eachBlock, type LibraryFacts, type ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { attributesIn, decimalMarkOf, type Limit, limitFor, limitsOf, printDual, type Quantity } from '../quantities/index.ts';

export interface LimitCell {
  readonly measurement: string;
  readonly model: string;
  /** Undefined: no limit is given for this model. */
  readonly text: string | undefined;
  readonly span: Span;
}

export function limitCells(facts: ProcedureFacts, library: LibraryFacts): readonly LimitCell[] {
  const mark = decimalMarkOf(library.registers.house.language);
  const attributes = attributesIn(library.registers);
  const models = [...new Set(facts.machines.map(({ variant }) => variant.model))];
  const tables = [...eachBlock([...facts.tree.preface, ...facts.tree.sections.flatMap(({ blocks }) => blocks)], 'table')];
  return facts.head.measurements.flatMap((measurement) => {
    const table = measurement.table === undefined ? undefined : tables.find(({ id }) => id === measurement.table);
    const own = facts.head.models.map(({ name }) => name);
    const { limits } = limitsOf(measurement, table, own, mark, attributes);
    return models.map((model) => {
      const limit = limitFor(limits, model);
      return { measurement: measurement.name, model, text: limit && limitText(limit, library), span: measurement.span };
    });
  });
}

/** In the units of the house, as the guides print it. */
function limitText({ lower, upper, unit }: Limit, library: LibraryFacts): string {
  if (lower === undefined && upper === undefined) return '-';
  const form: Quantity['form'] = lower === undefined ? 'at most' : upper === undefined ? 'at least' : 'range';
  return printDual({ form, unit, text: '', ...(lower ? { lower } : {}), ...(upper ? { upper } : {}) }, library.registers.house.units);
}
