/**
 * Puts the registered name in place of every spelling by which one entry refers to another, so that whoever reads the registers may
 * compare names as they are. A name that leads nowhere stays as typed; agreement.ts tells of it.
 */
import { settled, spellingsOf } from './look-up.ts';
import type { Family, Fitted, Model, Registers } from './model.ts';

export function settleNames(registers: Registers): Registers {
  const families = spellingsOf(registers.families);
  const options = spellingsOf(registers.options);
  const modelNames = spellingsOf(registers.models);
  const each = (names: readonly string[], spellings: ReadonlyMap<string, string>) => names.map((name) => settled(spellings, name));
  const models = registers.models.map(
    (model): Model => ({ ...model, family: settled(families, model.family), options: each(model.options, options) }),
  );
  /** `only on` lists models and options together; each list keeps its own. */
  const cut = <T extends { readonly fitted?: Fitted }>(thing: T): T => {
    if (!thing.fitted) return thing;
    return {
      ...thing,
      fitted: { models: each(thing.fitted.models ?? [], modelNames), options: each(thing.fitted.options ?? [], options) },
    };
  };
  return {
    ...registers,
    models,
    families: registers.families.map((family) => settleFamily(family, cut)),
    tools: registers.tools.map(cut),
    consumables: registers.consumables.map(cut),
    replacements: registers.replacements.map((part) => cut({ ...part, ...(part.models ? { models: each(part.models, modelNames) } : {}) })),
    symptoms: registers.symptoms.map((symptom) => ({
      ...symptom,
      ...(symptom.family === undefined ? {} : { family: settled(families, symptom.family) }),
      procedures: symptom.procedures.map((one) => ({
        ...one,
        ...(one.models ? { models: each(one.models, modelNames) } : {}),
        ...(one.options ? { options: each(one.options, options) } : {}),
      })),
    })),
  };
}

function settleFamily(family: Family, cut: <T extends { readonly fitted?: Fitted }>(thing: T) => T): Family {
  const known = {
    source: spellingsOf(family.sources),
    point: spellingsOf(family.points),
    control: spellingsOf(family.controls),
    cover: spellingsOf(family.covers),
    zone: spellingsOf(family.zones),
    fastener: spellingsOf(family.fasteners),
    gauge: spellingsOf(family.gauges),
    held: spellingsOf([...family.parts, ...family.covers, ...family.points, ...family.controls, ...family.gauges]),
  };
  const many = (names: readonly string[], kind: keyof typeof known) => names.map((name) => settled(known[kind], name));
  const one = <K extends string>(key: K, name: string | undefined, kind: keyof typeof known): { readonly [P in K]?: string } =>
    (name === undefined ? {} : { [key]: settled(known[kind], name) }) as { readonly [P in K]?: string };
  const uses = (list: Family['sources'][number]['isolate']) => list.map((use) => ({ ...use, point: settled(known.point, use.point) }));
  return {
    ...family,
    sources: family.sources.map((source) =>
      cut({
        ...source,
        isolate: uses(source.isolate),
        relieve: uses(source.relieve),
        restrain: uses(source.restrain),
        tryOut: many(source.tryOut, 'control'),
        shownBy: many(source.shownBy, 'gauge'),
      }),
    ),
    points: family.points.map((point) => cut({ ...point, ...one('zone', point.zone, 'zone'), ...one('behind', point.behind, 'cover') })),
    controls: family.controls.map((control) =>
      cut({
        ...control,
        stops: many(control.stops, 'source'),
        starts: many(control.starts, 'source'),
        ...one('zone', control.zone, 'zone'),
      }),
    ),
    covers: family.covers.map((cover) =>
      cut({
        ...cover,
        fasteners: many(cover.fasteners, 'fastener'),
        ...one('zone', cover.zone, 'zone'),
        ...one('behind', cover.behind, 'cover'),
      }),
    ),
    zones: family.zones.map((zone) =>
      cut({ ...zone, endangeredBy: many(zone.endangeredBy, 'source'), behind: many(zone.behind, 'cover') }),
    ),
    parts: family.parts.map((part) =>
      cut({
        ...part,
        ...one('zone', part.zone, 'zone'),
        ...one('behind', part.behind, 'cover'),
        ...one('holds', part.holds, 'source'),
      }),
    ),
    fasteners: family.fasteners.map((fastener) =>
      cut({
        ...fastener,
        ...one('of', fastener.of, 'held'),
        ...one('zone', fastener.zone, 'zone'),
        ...one('behind', fastener.behind, 'cover'),
        ...one('holds', fastener.holds, 'source'),
      }),
    ),
    gauges: family.gauges.map((gauge) => cut({ ...gauge, shows: many(gauge.shows, 'source'), ...one('zone', gauge.zone, 'zone') })),
  };
}
