/** The limits of one procedure as a guide prints them, a text for each measurement and model. */
import { type LibraryFacts, measuredOf, type ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { decimalMarkOf, type Limit, limitQuantity, limitsFor, printDual } from '../quantities/index.ts';
import { serialWords } from '../registers/index.ts';

export interface LimitCell {
  readonly measurement: string;
  readonly model: string;
  /** Undefined: no limit is given for this model. */
  readonly text: string | undefined;
  readonly span: Span;
}

export function limitCells(facts: ProcedureFacts, library: LibraryFacts): readonly LimitCell[] {
  const models = [...new Set(facts.machines.map(({ variant }) => variant.model))];
  return measuredOf(facts, library.registers).flatMap(({ measurement, limits: { limits } }) => {
    return models.map((model) => {
      const own = limitsFor(limits, model).map(
        (limit) => `${limit.serial === undefined ? '' : `${serialWords(limit.serial)}: `}${limitText(limit, library)}`,
      );
      return { measurement: measurement.name, model, text: own.length === 0 ? undefined : own.join('; '), span: measurement.span };
    });
  });
}

/** In the units of the house, as the guides print it. */
function limitText(limit: Limit, { registers }: LibraryFacts): string {
  const quantity = limitQuantity(limit);
  return quantity === undefined ? '-' : printDual(quantity, registers.house.units, decimalMarkOf(registers.house.language));
}
