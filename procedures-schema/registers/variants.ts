/** The machines a procedure is for: models by serial range by options, as people name them. What each has is machine.ts. */
import { foldText } from '../format/index.ts';
import { spellingsOf } from './look-up.ts';
import type { Family, Fitted, Model, ProcedureHead, Registers, Variant } from './model.ts';

/** Families of the models a procedure is for, in register order. */
export function familiesOf(head: ProcedureHead, registers: Registers): readonly Family[] {
  const names = new Set(modelsOf(head, registers).map((model) => model.family));
  return registers.families.filter((family) => names.has(family.name));
}

/** In the order of the front matter, each once. */
function modelsOf(head: ProcedureHead, registers: Registers): readonly Model[] {
  const spellings = spellingsOf(registers.models);
  const names = new Set(head.models.map(({ name }) => spellings.get(foldText(name))));
  return [...names].flatMap((name) => registers.models.find((model) => model.name === name) ?? []);
}

/**
 * Each model with each serial range, without options, with each option alone, and with all. Not every combination: options change
 * different things, and what two of them do together is seen with all.
 */
export function variantsFor(head: ProcedureHead, registers: Registers): readonly Variant[] {
  const [options, models] = [spellingsOf(registers.options), spellingsOf(registers.models)];
  const settled = (names: readonly string[]): string[] =>
    names.map((name) => options.get(foldText(name)) ?? models.get(foldText(name)) ?? name);
  const only = head.onlyOn === undefined ? undefined : settled(head.onlyOn);
  const named = new Set([...settled(head.options.map(({ name }) => name)), ...(only ?? [])]);
  return modelsOf(head, registers)
    .flatMap((model) => variantsOf(model, named, registers))
    .filter(({ model, options }) => only === undefined || only.includes(model) || options.some((option) => only.includes(option)));
}

function variantsOf(model: Model, named: ReadonlySet<string>, registers: Registers): Variant[] {
  const family = registers.families.find((one) => one.name === model.family);
  const fitted = new Set((family ? thingsOf(family) : []).flatMap((thing) => thing.fitted?.options ?? []));
  const options = model.options.filter((option) => fitted.has(option) || named.has(option));
  const sets = [[], ...options.map((option) => [option]), ...(options.length > 1 ? [options] : [])];
  // One range without a second is the whole of the model.
  const ranges = model.serials.length > 1 ? model.serials : [undefined];
  return ranges.flatMap((range) =>
    sets.map((set): Variant => {
      const serial = range
        ? { ...(range.from === undefined ? {} : { from: range.from }), ...(range.to === undefined ? {} : { to: range.to }) }
        : undefined;
      return { name: variantName(model.name, set, serial), model: model.name, options: set, ...(serial ? { serial } : {}) };
    }),
  );
}

function thingsOf(family: Family): readonly { readonly fitted?: Fitted }[] {
  const { sources, points, controls, covers, zones, parts, fasteners, gauges } = family;
  return [...sources, ...points, ...controls, ...covers, ...zones, ...parts, ...fasteners, ...gauges];
}

function variantName(model: string, options: readonly string[], serial: Variant['serial']): string {
  return [model, ...(serial ? [serialWords(serial)] : []), ...(options.length > 0 ? [`with ${options.join(' and ')}`] : [])].join(' ');
}

/** "up to 2199", "from 2200", "2200 to 2499". */
export const serialWords = ({ from, to }: NonNullable<Variant['serial']>): string =>
  from === undefined ? `up to ${to}` : to === undefined ? `from ${from}` : `${from} to ${to}`;
