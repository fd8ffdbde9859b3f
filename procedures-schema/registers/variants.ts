/** The machines a procedure is for: models by serial break by options, and what each of them has. */
import type { Family, Fitted, Machine, Model, ProcedureHead, Registers, Variant } from './model.ts';

/** Families of the models a procedure is for, in register order. */
export function familiesOf(head: ProcedureHead, registers: Registers): readonly Family[] {
  const names = new Set(modelsOf(head, registers).map((model) => model.family));
  return registers.families.filter((family) => names.has(family.name));
}

function modelsOf(head: ProcedureHead, registers: Registers): Model[] {
  return head.models.flatMap(({ name }) => registers.models.find((model) => model.name.toLowerCase() === name.toLowerCase()) ?? []);
}

/**
 * Each model with each serial range, without options, with each option alone, and with all. Not every combination: options change
 * different things, and what two of them do together is seen with all.
 */
export function variantsFor(head: ProcedureHead, registers: Registers): readonly Variant[] {
  const out: Variant[] = [];
  for (const model of modelsOf(head, registers)) {
    const options = optionsThatMatter(model, head, registers);
    const sets = [[], ...options.map((option) => [option]), ...(options.length > 1 ? [options] : [])];
    const ranges = model.serials.length > 1 ? model.serials : [undefined];
    for (const range of ranges)
      for (const set of sets) {
        const serial = range
          ? { ...(range.from === undefined ? {} : { from: range.from }), ...(range.to === undefined ? {} : { to: range.to }) }
          : undefined;
        out.push({ name: variantName(model.name, set, serial), model: model.name, options: set, ...(serial ? { serial } : {}) });
      }
  }
  return out;
}

function optionsThatMatter(model: Model, head: ProcedureHead, registers: Registers): string[] {
  const family = registers.families.find((one) => one.name === model.family);
  const fitted = new Set((family ? thingsOf(family) : []).flatMap((thing) => thing.fitted?.options ?? []));
  const asked = new Set(head.options.map(({ name }) => name.toLowerCase()));
  return model.options.filter((option) => fitted.has(option) || asked.has(option.toLowerCase()));
}

function thingsOf(family: Family): readonly { readonly fitted?: Fitted }[] {
  return [
    ...family.sources,
    ...family.points,
    ...family.controls,
    ...family.covers,
    ...family.zones,
    ...family.parts,
    ...family.fasteners,
    ...family.gauges,
  ];
}

function variantName(model: string, options: readonly string[], serial: Variant['serial']): string {
  const parts = [model];
  if (serial)
    parts.push(
      serial.from === undefined ? `up to ${serial.to}` : serial.to === undefined ? `from ${serial.from}` : `${serial.from} to ${serial.to}`,
    );
  if (options.length > 0) parts.push(`with ${options.join(' and ')}`);
  return parts.join(' ');
}

/** A family cut to what one variant has. Points that only serve absent sources are gone with them. */
export function machineOf(variant: Variant, registers: Registers): Machine {
  const model = registers.models.find((one) => one.name === variant.model);
  const family = registers.families.find((one) => one.name === model?.family);
  const has = ({ fitted }: { readonly fitted?: Fitted }): boolean => {
    if (!fitted) return true;
    return (fitted.models?.includes(variant.model) ?? false) || variant.options.some((option) => fitted.options?.includes(option));
  };
  if (!family)
    return {
      name: model?.family ?? '',
      variant,
      sources: [],
      none: [],
      points: [],
      controls: [],
      covers: [],
      zones: [],
      parts: [],
      fasteners: [],
      gauges: [],
    };
  const sources = family.sources.filter(has);
  const gone = family.sources.filter((source) => !has(source));
  const used = new Set(sources.flatMap((source) => [...source.isolate, ...source.relieve, ...source.restrain].map((use) => use.point)));
  const lost = new Set(gone.flatMap((source) => [...source.isolate, ...source.relieve, ...source.restrain].map((use) => use.point)));
  const covers = family.covers.filter(has);
  const coverNames = new Set(covers.map((cover) => cover.name));
  const sourceNames = new Set(sources.map((source) => source.name));
  return {
    name: family.name,
    variant,
    sources,
    none: family.none,
    points: family.points.filter((point) => has(point) && (used.has(point.name) || !lost.has(point.name))),
    controls: family.controls.filter(has),
    covers,
    zones: family.zones.filter(has).map((zone) => ({
      ...zone,
      behind: zone.behind.filter((cover) => coverNames.has(cover)),
      endangeredBy: zone.endangeredBy.filter((source) => sourceNames.has(source)),
    })),
    parts: family.parts.filter(has),
    fasteners: family.fasteners.filter(has),
    gauges: family.gauges.filter(has),
  };
}
