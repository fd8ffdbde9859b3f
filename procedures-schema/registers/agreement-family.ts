/** Whether the entries of one family agree: sources, points, covers, zones, parts and what they name of each other. */
import { foldText, yamlGet } from '../format/index.ts';
import { describeField } from '../schemas/index.ts';
import { type Known, knownOf, slips, unknownNames } from './agreement.ts';
import { type Entry, entriesOf, scalarsOf, textOf } from './fields.ts';
import type { Family, Registers } from './model.ts';
import { nearestNames } from './nearest.ts';
import type { SchemaProblem } from './problem.ts';

/** Tests that steps are looked through for; the schema names them too. */
const RETURN_TESTS = describeField('equipment', ['families', '', 'parts', '', 'when disturbed'])?.examples ?? [];

type Part = 'energy' | 'points' | 'controls' | 'covers' | 'zones' | 'parts' | 'fasteners' | 'gauges';

const NOUNS: Readonly<Record<Part, string>> = {
  energy: 'energy source',
  points: 'point',
  controls: 'control',
  covers: 'cover',
  zones: 'zone',
  parts: 'part',
  fasteners: 'fastener',
  gauges: 'gauge',
};

/** Which field of which entry names what. */
const NAMES: Readonly<Record<Part, readonly (readonly [field: string, kind: string])[]>> = {
  energy: [
    ['try out', 'control'],
    ['shown by', 'gauge'],
  ],
  points: [
    ['zone', 'zone'],
    ['behind', 'cover'],
  ],
  controls: [
    ['stops', 'source'],
    ['starts', 'source'],
    ['zone', 'zone'],
  ],
  covers: [
    ['zone', 'zone'],
    ['behind', 'cover'],
    ['fasteners', 'fastener'],
  ],
  zones: [
    ['endangered by', 'source'],
    ['behind', 'cover'],
  ],
  parts: [
    ['zone', 'zone'],
    ['behind', 'cover'],
    ['holds', 'source'],
  ],
  fasteners: [
    ['of', 'held'],
    ['zone', 'zone'],
    ['behind', 'cover'],
    ['holds', 'source'],
  ],
  gauges: [
    ['shows', 'source'],
    ['zone', 'zone'],
  ],
};

export function familyProblems(entry: Entry, registers: Registers): SchemaProblem[] {
  const family =
    registers.families.find((one) => one.origin.span === entry.key.span) ?? registers.families.find(({ name }) => name === entry.name);
  if (!family) return [];
  const kinds: Readonly<Record<string, Known>> = {
    source: knownOf('energy source', family.sources),
    control: knownOf('control', family.controls),
    cover: knownOf('cover', family.covers),
    zone: knownOf('zone', family.zones),
    fastener: knownOf('fastener', family.fasteners),
    gauge: knownOf('gauge', family.gauges),
    held: knownOf('part or cover', [...family.parts, ...family.covers, ...family.points, ...family.controls, ...family.gauges]),
    fitted: knownOf('model or option', [...registers.options, ...registers.models.filter((model) => model.family === family.name)]),
  };
  const out: SchemaProblem[] = [];
  for (const part of Object.keys(NOUNS) as Part[])
    for (const { name, value } of entriesOf(yamlGet(entry.value, part))) {
      const owner = `The ${NOUNS[part]} "${name}"`;
      const path = `families / ${family.name} / ${part} / ${name}`;
      for (const [field, kind] of [...NAMES[part], ['only on', 'fitted'] as const]) {
        const known = kinds[kind];
        if (known) out.push(...unknownNames(yamlGet(value, field), known, owner, `${path} / ${field}`));
      }
      out.push(...slips(yamlGet(value, 'when disturbed'), RETURN_TESTS, owner, `${path} / when disturbed`));
    }
  return [...out, ...pointProblems(entry, family), ...positionProblems(entry, family), ...doubleNames(family), ...circles(family)];
}

/**
 * A point that no source names may be an ordinary valve. One whose name is all but that of a point a source names, which itself has no
 * entry, is a typing error: the entry then says nothing about the point it was written for.
 */
function pointProblems(entry: Entry, family: Family): SchemaProblem[] {
  const entries = entriesOf(yamlGet(entry.value, 'points'));
  const said = new Set(
    entries.flatMap(({ name, value }) => [name, ...scalarsOf(yamlGet(value, 'also')).map(({ text }) => text)].map(foldText)),
  );
  const used = new Set(
    family.sources.flatMap((source) => [...source.isolate, ...source.relieve, ...source.restrain].map(({ point }) => foldText(point))),
  );
  const unsaid = [...used].filter((name) => !said.has(name));
  return entries.flatMap(({ name, key, value }): SchemaProblem[] => {
    const own = [name, ...scalarsOf(yamlGet(value, 'also')).map(({ text }) => text)];
    const [near] = nearestNames(foldText(name), unsaid, 1);
    if (near === undefined || own.some((one) => used.has(foldText(one)))) return [];
    return [
      {
        span: key.span,
        message: `No energy source of the ${family.name} names the point "${name}"; is "${near}" the same point?`,
        actual: name,
        expected: 'one name for one point, here and under its sources',
        path: `families / ${family.name} / points / ${name}`,
      },
    ];
  });
}

/** The safe position must be one that the point has, and "off" one that the control has. */
function positionProblems(entry: Entry, family: Family): SchemaProblem[] {
  const said = new Map<string, readonly string[]>();
  for (const { name, value } of entriesOf(yamlGet(entry.value, 'points'))) {
    const positions = scalarsOf(yamlGet(value, 'positions')).map(({ text }) => text);
    if (positions.length > 0) said.set(foldText(name), positions);
  }
  const out: SchemaProblem[] = [];
  for (const source of entriesOf(yamlGet(entry.value, 'energy')))
    for (const use of ['isolate', 'relieve', 'restrain'])
      for (const { name, value } of entriesOf(yamlGet(source.value, use))) {
        const positions = said.get(foldText(name));
        const safe = textOf(value);
        if (!positions || safe === undefined || value === undefined || positions.some((one) => foldText(one) === foldText(safe))) continue;
        const [nearest] = nearestNames(foldText(safe), positions, 1);
        out.push({
          span: value.span,
          message: `The ${source.name} is safe with the ${name} "${safe}", but that is none of its positions${nearest ? `; did you mean "${nearest}"?` : '.'}`,
          actual: safe,
          expected: nearest ?? `one of ${positions.join(', ')}`,
          path: `families / ${family.name} / energy / ${source.name} / ${use} / ${name}`,
        });
      }
  for (const { name, value } of entriesOf(yamlGet(entry.value, 'controls'))) {
    const positions = scalarsOf(yamlGet(value, 'positions')).map(({ text }) => text);
    const off = yamlGet(value, 'off');
    if (off?.kind !== 'scalar' || positions.length === 0 || positions.some((one) => foldText(one) === foldText(off.text))) continue;
    out.push({
      span: off.span,
      message: `The control "${name}" is off at "${off.text}", but that is none of its positions.`,
      actual: off.text,
      expected: `one of ${positions.join(', ')}`,
      path: `families / ${family.name} / controls / ${name} / off`,
    });
  }
  return out;
}

/** Two things of one family under one name: a step that uses it cannot say which it means (F3). */
function doubleNames(family: Family): SchemaProblem[] {
  const seen = new Map<string, { readonly noun: string; readonly name: string }>();
  const out: SchemaProblem[] = [];
  const things = [
    ...family.sources.map((thing) => ({ thing, noun: NOUNS.energy })),
    ...family.points.map((thing) => ({ thing, noun: NOUNS.points })),
    ...family.controls.map((thing) => ({ thing, noun: NOUNS.controls })),
    ...family.covers.map((thing) => ({ thing, noun: NOUNS.covers })),
    ...family.zones.map((thing) => ({ thing, noun: NOUNS.zones })),
    ...family.parts.map((thing) => ({ thing, noun: NOUNS.parts })),
    ...family.fasteners.map((thing) => ({ thing, noun: NOUNS.fasteners })),
    ...family.gauges.map((thing) => ({ thing, noun: NOUNS.gauges })),
  ];
  for (const { thing, noun } of things)
    for (const spelling of new Set([thing.name, ...thing.aliases].map(foldText))) {
      const other = seen.get(spelling);
      if (!other) seen.set(spelling, { noun, name: thing.name });
      else
        out.push({
          span: thing.origin.span,
          message: `"${spelling}" is already a name of the ${other.noun} "${other.name}" of the ${family.name}; here it is a ${noun} too.`,
          actual: spelling,
          expected: 'a name that only one of them has',
          path: `families / ${family.name} / ${thing.name}`,
        });
    }
  return out;
}

/** A cover that lies behind itself, by way of others, can never be opened. */
function circles(family: Family): SchemaProblem[] {
  const behind = new Map(family.covers.map((cover) => [cover.name, cover.behind]));
  return family.covers.flatMap((cover): SchemaProblem[] => {
    const way = [cover.name];
    let at = cover.behind;
    while (at !== undefined && !way.includes(at)) {
      way.push(at);
      at = behind.get(at);
    }
    if (at !== cover.name) return [];
    return [
      {
        span: cover.origin.span,
        message: `The cover "${cover.name}" lies behind itself: ${[...way, cover.name].join(', behind ')}.`,
        expected: 'an outermost cover that lies behind none',
        path: `families / ${family.name} / covers / ${cover.name} / behind`,
      },
    ];
  });
}
