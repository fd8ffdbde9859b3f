/** The limits of a measurement in words for a writer: one line for all machines, or one for each model and range of serial numbers. */
import { type LibraryFacts, measuredOf, type ProcedureFacts } from '../checks/index.ts';
import { decimalMarkOf, type Limit, limitFor, limitQuantity, printDual, rangeName } from '../quantities/index.ts';
import type { Variant } from '../registers/index.ts';

/** `variant`: only what holds for this machine. */
export function limitLines(name: string, facts: ProcedureFacts, library: LibraryFacts, variant?: Variant): readonly string[] {
  const measured = measuredOf(facts, library.registers).find(({ measurement }) => measurement.name === name);
  const { limits } = measured?.limits ?? { limits: [] };
  if (variant === undefined) return linesOf(limits, library);
  const own = limitFor(limits, variant);
  return own === undefined ? [] : [`${limitText(own, library)}${from(own)}`];
}

/** Models are not named where all have the same. */
export function linesOf(limits: readonly Limit[], library: LibraryFacts): readonly string[] {
  const told = limits.map((limit) => ({ limit, text: `${limitText(limit, library)}${from(limit)}` }));
  const [first] = told;
  if (first === undefined) return [];
  if (told.every(({ text }) => text === first.text)) return [first.text];
  return told.map(({ limit, text }) => `${limit.model === undefined ? '' : `${rangeName(limit.model, limit.serial)}: `}${text}`);
}

const from = ({ formula }: Limit): string => (formula === undefined ? '' : `, from ${formula}`);

function limitText(limit: Limit, library: LibraryFacts): string {
  const { units, language } = library.registers.house;
  const quantity = limitQuantity(limit);
  return quantity === undefined ? 'no limit' : printDual(quantity, units, decimalMarkOf(language)).replaceAll('\u00a0', ' ');
}
