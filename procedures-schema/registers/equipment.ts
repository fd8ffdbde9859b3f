/** Decodes equipment.yaml: families with their energy, points, covers and parts; models and options. Judges nothing. */
import { type YamlNode, yamlGet } from '../format/index.ts';
import { type Entry, entriesOf, listOf, namedOf, numberOf, present, textOf, wordOf, yes } from './fields.ts';
import type {
  Control,
  Cover,
  EnergyKind,
  Family,
  Fastener,
  Gauge,
  Model,
  NoSource,
  Part,
  Point,
  PointRole,
  PointUse,
  SerialRange,
  Source,
  Zone,
} from './model.ts';

export const ENERGY_KINDS: readonly EnergyKind[] = [
  'electrical',
  'capacitor',
  'pneumatic',
  'hydraulic',
  'gravity',
  'spring',
  'steam',
  'gas',
  'mechanical',
  'thermal',
  'chemical',
];

export function familiesIn(file: string, root: YamlNode | undefined): Family[] {
  return entriesOf(yamlGet(root, 'families')).map((entry) => familyOf(file, entry));
}

function familyOf(file: string, entry: Entry): Family {
  const part = (key: string): readonly Entry[] => entriesOf(yamlGet(entry.value, key));
  const energy = part('energy');
  const sources = energy.filter(({ value }) => textOf(value, 'none because') === undefined).map((one) => sourceOf(file, one));
  return {
    ...namedOf(file, entry),
    sources,
    none: energy.flatMap((one) => noSourceOf(file, one)),
    points: pointsOf(file, part('points'), sources, energy),
    controls: part('controls').map((one) => controlOf(file, one)),
    covers: part('covers').map((one) => coverOf(file, one)),
    zones: part('zones').map((one) => zoneOf(file, one)),
    parts: part('parts').map((one) => partOf(file, one)),
    fasteners: part('fasteners').map((one) => fastenerOf(file, one)),
    gauges: part('gauges').map((one) => gaugeOf(file, one)),
  };
}

function pointUses(node: YamlNode | undefined, key: string): PointUse[] {
  return entriesOf(yamlGet(node, key)).map(({ name, value }) => ({ point: name, safe: textOf(value) ?? '' }));
}

function sourceOf(file: string, entry: Entry): Source {
  const { value } = entry;
  const relieve = pointUses(value, 'relieve');
  const restrain = pointUses(value, 'restrain');
  const settles = textOf(value, 'settles in');
  return {
    ...namedOf(file, entry),
    kind: wordOf(value, ENERGY_KINDS, 'kind') ?? 'electrical',
    size: textOf(value, 'size') ?? '',
    isolate: pointUses(value, 'isolate'),
    relieve,
    restrain,
    ...present({ settles }),
    stored: relieve.length > 0 || restrain.length > 0 || settles !== undefined,
    tryOut: listOf(value, 'try out'),
    shownBy: listOf(value, 'shown by'),
    provedWith: listOf(value, 'proved with'),
    canComeBack: yes(value, 'can come back'),
    restartsByItself: yes(value, 'restarts by itself'),
    cordAndPlug: yes(value, 'cord and plug'),
  } as Source;
}

function noSourceOf(file: string, { name, key, value }: Entry): NoSource[] {
  const because = textOf(value, 'none because');
  const kind = wordOf(value, ENERGY_KINDS, 'kind');
  return because !== undefined && kind ? [{ name, kind, because, origin: { file, span: key.span } }] : [];
}

/** A point is whatever a source names, with what `points:` adds to it. */
function pointsOf(file: string, entries: readonly Entry[], sources: readonly Source[], energy: readonly Entry[]): Point[] {
  const roles = new Map<string, { roles: Set<PointRole>; positions: Set<string>; plug: boolean; source: Source }>();
  for (const source of sources)
    for (const role of ['isolate', 'relieve', 'restrain'] as const)
      for (const { point, safe } of source[role]) {
        const known = roles.get(point) ?? { roles: new Set(), positions: new Set(), plug: false, source };
        known.roles.add(role);
        if (safe !== '') known.positions.add(safe);
        known.plug ||= source.cordAndPlug && role === 'isolate';
        roles.set(point, known);
      }
  const said = new Map(entries.map((entry) => [entry.name, entry]));
  const origin = (name: string, source: Source | undefined) => {
    const entry = energy.find((one) => one.name === source?.name);
    const key = entriesOf(entry?.value)
      .flatMap((one) => entriesOf(one.value))
      .find((one) => one.name === name)?.key;
    return { file, span: key?.span ?? source?.origin.span ?? { start: 0, end: 0 } };
  };
  return [...new Set([...roles.keys(), ...said.keys()])].map((name) => {
    const entry = said.get(name);
    const known = roles.get(name);
    const value = entry?.value;
    const isolates = known?.roles.has('isolate') ?? false;
    return {
      ...(entry ? namedOf(file, entry) : { name, aliases: [], origin: origin(name, known?.source) }),
      roles: [...(known?.roles ?? [])],
      positions: [...new Set([...(known?.positions ?? []), ...listOf(value, 'positions')])],
      lockable: textOf(value, 'lockable') === undefined ? isolates : yes(value, 'lockable'),
      plug: yes(value, 'plug') || (known?.plug ?? false),
      ...present({ zone: textOf(value, 'zone'), behind: textOf(value, 'behind') }),
    } as Point;
  });
}

function controlOf(file: string, entry: Entry): Control {
  const { value } = entry;
  return {
    ...namedOf(file, entry),
    holdToRun: yes(value, 'hold to run'),
    maintained: yes(value, 'maintained'),
    stops: listOf(value, 'stops'),
    starts: listOf(value, 'starts'),
    positions: listOf(value, 'positions'),
    ...present({ off: textOf(value, 'off'), zone: textOf(value, 'zone') }),
  } as Control;
}

function coverOf(file: string, entry: Entry): Cover {
  const { value } = entry;
  return {
    ...namedOf(file, entry),
    interlocked: yes(value, 'interlocked'),
    openLive: yes(value, 'may be opened live'),
    fasteners: listOf(value, 'fasteners'),
    ...present({ zone: textOf(value, 'zone'), behind: textOf(value, 'behind'), returnTest: textOf(value, 'when disturbed') }),
  } as Cover;
}

function zoneOf(file: string, entry: Entry): Zone {
  return { ...namedOf(file, entry), endangeredBy: listOf(entry.value, 'endangered by'), behind: listOf(entry.value, 'behind') };
}

function partOf(file: string, entry: Entry): Part {
  const { value } = entry;
  return {
    ...namedOf(file, entry),
    positions: listOf(value, 'positions'),
    ...present({
      zone: textOf(value, 'zone'),
      behind: textOf(value, 'behind'),
      holds: textOf(value, 'holds'),
      returnTest: textOf(value, 'when disturbed'),
      count: numberOf(value, 'count'),
    }),
  } as Part;
}

function fastenerOf(file: string, entry: Entry): Fastener {
  const { value } = entry;
  return {
    ...namedOf(file, entry),
    places: listOf(value, 'places'),
    ...present({
      count: numberOf(value, 'count'),
      torque: textOf(value, 'torque'),
      condition: wordOf(value, ['dry', 'lubricated'] as const, 'condition'),
      of: textOf(value, 'of'),
      zone: textOf(value, 'zone'),
      behind: textOf(value, 'behind'),
      holds: textOf(value, 'holds'),
      returnTest: textOf(value, 'when disturbed'),
    }),
  } as Fastener;
}

function gaugeOf(file: string, entry: Entry): Gauge {
  return { ...namedOf(file, entry), shows: listOf(entry.value, 'shows'), ...present({ zone: textOf(entry.value, 'zone') }) } as Gauge;
}

const MODEL_KEYS = new Set(['family', 'options', 'serials', 'also']);

export function modelsIn(file: string, root: YamlNode | undefined): Model[] {
  return entriesOf(yamlGet(root, 'models')).map(({ name, key, value }) => ({
    name,
    aliases: listOf(value, 'also'),
    family: textOf(value, 'family') ?? '',
    origin: { file, span: key.span },
    attributes: attributesOf(value, MODEL_KEYS),
    options: listOf(value, 'options'),
    serials: serialsOf(file, yamlGet(value, 'serials')),
  }));
}

function serialsOf(file: string, node: YamlNode | undefined): SerialRange[] {
  if (node?.kind !== 'seq') return [];
  return node.items.map((item) => ({
    ...present({ from: numberOf(item, 'from'), to: numberOf(item, 'to') }),
    attributes: attributesOf(item, new Set(['from', 'to'])),
    origin: { file, span: item.span },
  })) as SerialRange[];
}

function attributesOf(node: YamlNode | undefined, not: ReadonlySet<string>): Record<string, string> {
  return Object.fromEntries(
    entriesOf(node)
      .filter(({ name }) => !not.has(name))
      .map(({ name, value }) => [name, textOf(value) ?? '']),
  );
}
