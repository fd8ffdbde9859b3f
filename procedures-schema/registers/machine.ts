/** A family cut to what one variant has. What is left names only what is left. */
import type { Family, Fitted, Machine, PointUse, Registers, Source, Variant } from './model.ts';

/** Many procedures ask for the same machines: they are made once for each value of the registers. */
const MADE = new WeakMap<Registers, Map<string, Machine>>();

export function machineOf(variant: Variant, registers: Registers): Machine {
  const known = MADE.get(registers) ?? new Map<string, Machine>();
  MADE.set(registers, known);
  const key = JSON.stringify([variant.name, variant.model, variant.options, variant.serial]);
  const made = known.get(key) ?? cut(variant, registers);
  known.set(key, made);
  return made;
}

function cut(variant: Variant, registers: Registers): Machine {
  const model = registers.models.find((one) => one.name === variant.model);
  const family = registers.families.find((one) => one.name === model?.family);
  if (!family) return bare(variant, model?.family ?? '');
  const has = ({ fitted }: { readonly fitted?: Fitted }): boolean =>
    !fitted || (fitted.models?.includes(variant.model) ?? false) || variant.options.some((option) => fitted.options?.includes(option));
  const present = <T extends { readonly name: string; readonly fitted?: Fitted }>(things: readonly T[]) => {
    const kept = things.filter(has);
    return { kept, names: new Set(kept.map(({ name }) => name)) };
  };
  const sources = present(family.sources);
  const points = present(pointsLeft(family, has));
  const controls = present(family.controls);
  const covers = present(family.covers);
  const zones = present(family.zones);
  const fasteners = present(family.fasteners);
  const gauges = present(family.gauges);
  const uses = (list: readonly PointUse[]) => list.filter(({ point }) => points.names.has(point));
  const of = (list: readonly string[], kept: { readonly names: ReadonlySet<string> }) => list.filter((name) => kept.names.has(name));
  /** A thing whose zone this machine lacks lies in the whole machine: the careful reading. */
  const placed = <T extends { readonly zone?: string; readonly behind?: string; readonly holds?: string }>(thing: T): T => {
    const { zone, behind, holds, ...rest } = thing;
    return {
      ...rest,
      ...(zone !== undefined && zones.names.has(zone) ? { zone } : {}),
      ...(behind !== undefined && covers.names.has(behind) ? { behind } : {}),
      ...(holds !== undefined && sources.names.has(holds) ? { holds } : {}),
    } as T;
  };
  return {
    name: family.name,
    variant,
    language: registers.house.language,
    sources: sources.kept.map((source) => ({
      ...source,
      isolate: uses(source.isolate),
      relieve: uses(source.relieve),
      restrain: uses(source.restrain),
      tryOut: of(source.tryOut, controls),
      shownBy: of(source.shownBy, gauges),
    })),
    none: family.none,
    points: points.kept.map(placed),
    controls: controls.kept.map((control) =>
      placed({ ...control, stops: of(control.stops, sources), starts: of(control.starts, sources) }),
    ),
    covers: covers.kept.map((cover) => placed({ ...cover, fasteners: of(cover.fasteners, fasteners) })),
    zones: zones.kept.map((zone) => ({ ...zone, behind: of(zone.behind, covers), endangeredBy: of(zone.endangeredBy, sources) })),
    parts: family.parts.filter(has).map(placed),
    fasteners: fasteners.kept.map(placed),
    gauges: gauges.kept.map((gauge) => placed({ ...gauge, shows: of(gauge.shows, sources) })),
  };
}

/** Points that only serve sources that are absent are gone with them. */
function pointsLeft(family: Family, has: (thing: { readonly fitted?: Fitted }) => boolean): Family['points'] {
  const pointsOf = (sources: readonly Source[]) =>
    new Set(sources.flatMap((source) => [...source.isolate, ...source.relieve, ...source.restrain].map((use) => use.point)));
  const used = pointsOf(family.sources.filter(has));
  const lost = pointsOf(family.sources.filter((source) => !has(source)));
  return family.points.filter(({ name }) => used.has(name) || !lost.has(name));
}

function bare(variant: Variant, name: string): Machine {
  const nothing = { sources: [], none: [], points: [], controls: [], covers: [], zones: [], parts: [], fasteners: [], gauges: [] };
  return { name, variant, ...nothing };
}
