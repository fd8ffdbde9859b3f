/** What a registered thing is, in short plain lines: for completion and hover. Reads the registers only. */
import { foldText } from '../format/index.ts';
import type { Family, Fitted, Registers, Thing, ThingKind } from '../registers/index.ts';
import { listed } from './reading-words.ts';

export const KIND_WORDS: Readonly<Record<ThingKind, string>> = {
  source: 'source of energy',
  point: 'point',
  control: 'control',
  cover: 'cover',
  zone: 'zone',
  part: 'part',
  fastener: 'fasteners',
  gauge: 'gauge',
  tool: 'tool',
  consumable: 'consumable',
  replacement: 'replacement part',
  document: 'document from elsewhere',
  procedure: 'procedure',
  measurement: 'measurement',
  section: 'section',
  option: 'option',
  model: 'model',
  role: 'role',
  machine: 'machine',
};

/** Lines about the thing, the kind first. `family` picks one where several have a thing of that name. */
export function thingLines(thing: Thing, registers: Registers): readonly string[] {
  const families = registers.families.filter((family) => thing.family === undefined || family.name === thing.family);
  for (const family of families) {
    const lines = equipmentLines(thing, family);
    if (lines) return [...lines, `In the register: ${family.name}.`];
  }
  return libraryLines(thing, registers) ?? [KIND_WORDS[thing.kind]];
}

type Describe = (family: Family, name: string) => readonly (string | undefined)[] | undefined;

const same = (a: string, b: string): boolean => foldText(a) === foldText(b);
const find = <T extends { readonly name: string }>(list: readonly T[], name: string): T | undefined =>
  list.find((one) => same(one.name, name));
const said = (words: string, value: string | undefined): string | undefined => (value === undefined ? undefined : `${words} ${value}.`);
const all = (words: string, values: readonly string[]): string | undefined =>
  values.length === 0 ? undefined : `${words} ${listed(values)}.`;
const only = (fitted: Fitted | undefined, family: Family): string | undefined => {
  const names = [...new Set([...(fitted?.models ?? []), ...(fitted?.options ?? [])])];
  return names.length === 0 ? undefined : `Only on ${listed(names)} of the ${family.name}.`;
};
const also = (aliases: readonly string[]): string | undefined => all('Also called', aliases);

const EQUIPMENT: Partial<Readonly<Record<ThingKind, Describe>>> = {
  source: (family, name) => {
    const one = find(family.sources, name);
    const uses = (list: readonly { readonly point: string; readonly safe: string }[]) => list.map(({ point, safe }) => `${point} ${safe}`);
    return (
      one && [
        `Source of energy: ${one.kind}, ${one.size}.`,
        all('Cut off by', uses(one.isolate)),
        all('Let out by', uses(one.relieve)),
        all('Held by', uses(one.restrain)),
        said('Gone after', one.settles),
        all('Shown dead by', [...one.tryOut, ...one.shownBy, ...one.provedWith]),
        one.canComeBack ? 'It can come back.' : undefined,
        one.restartsByItself ? 'It restarts by itself.' : undefined,
        only(one.fitted, family),
        also(one.aliases),
      ]
    );
  },
  point: (family, name) => {
    const one = find(family.points, name);
    const safe = family.sources.flatMap((source) =>
      (['isolate', 'relieve', 'restrain'] as const).flatMap((use) =>
        source[use].filter(({ point }) => same(point, name)).map((own) => `${POINT_USE[use]} ${source.name}: safe when ${own.safe}.`),
      ),
    );
    return (
      one && [
        `${listed(one.roles.map((role) => POINT_ROLE[role])) || 'Point'}.`.replace(/^./, (c) => c.toUpperCase()),
        ...safe,
        all('Positions:', one.positions),
        one.plug ? 'A plug: keep it in hand.' : one.lockable ? 'Takes a lock.' : 'Takes no lock.',
        said('Stands in the zone', one.zone),
        said('Behind', one.behind),
        only(one.fitted, family),
        also(one.aliases),
      ]
    );
  },
  control: (family, name) => {
    const one = find(family.controls, name);
    return (
      one && [
        'Control. It moves no point and makes nothing safe.',
        all('Starts', one.starts),
        all('Stops', one.stops),
        all('Positions:', one.positions),
        said('Off is', one.off),
        one.holdToRun ? 'Hold to run.' : undefined,
        one.maintained ? 'Stays where it is put.' : undefined,
        said('Stands in the zone', one.zone),
        only(one.fitted, family),
        also(one.aliases),
      ]
    );
  },
  cover: (family, name) => {
    const one = find(family.covers, name);
    const zone = one?.zone === undefined ? undefined : find(family.zones, one.zone);
    return (
      one && [
        one.zone === undefined ? 'Cover.' : `Cover of the ${one.zone}.`,

        all('Endangered there by', zone?.endangeredBy ?? []),
        all('Held on by', one.fasteners),
        one.interlocked ? 'Interlocked.' : undefined,
        one.openLive ? 'May be opened live.' : undefined,
        said('When disturbed:', one.returnTest),
        said('Behind', one.behind),
        only(one.fitted, family),
        also(one.aliases),
      ]
    );
  },
  zone: (family, name) => {
    const one = find(family.zones, name);
    return (
      one && [
        'Zone.',
        one.endangeredBy.length === 0 ? 'Nothing endangers a hand there.' : all('Endangered by', one.endangeredBy),
        all('Behind', one.behind),
        only(one.fitted, family),
        also(one.aliases),
      ]
    );
  },
  part: (family, name) => {
    const one = find(family.parts, name);
    return (
      one && [
        `Part${one.zone === undefined ? '' : ` in the ${one.zone}`}${one.count === undefined ? '' : `, ${one.count} of them`}.`,
        ...zoneLines(family, one.zone),
        said('It holds the', one.holds),
        said('When disturbed:', one.returnTest),
        all('Positions:', one.positions),
        said('Behind', one.behind),
        only(one.fitted, family),
        also(one.aliases),
      ]
    );
  },
  fastener: (family, name) => {
    const one = find(family.fasteners, name);
    return (
      one && [
        `Fasteners${one.of === undefined ? '' : ` of the ${one.of}`}${one.count === undefined ? '' : `, ${one.count} of them`}.`,
        one.torque === undefined ? undefined : `Torque ${one.torque}${one.condition === undefined ? '' : `, ${one.condition}`}.`,
        ...(one.zone === undefined ? [] : zoneLines(family, one.zone)),
        said('They hold the', one.holds),
        said('When disturbed:', one.returnTest),
        all('Places:', one.places),
        only(one.fitted, family),
        also(one.aliases),
      ]
    );
  },
  gauge: (family, name) => {
    const one = find(family.gauges, name);
    return (
      one && [
        'Gauge on the machine.',
        all('Shows', one.shows),
        said('Stands in the zone', one.zone),
        only(one.fitted, family),
        also(one.aliases),
      ]
    );
  },
  machine: (family, name) => (same(family.name, name) ? ['Family of machines.', also(family.aliases)] : undefined),
};

const POINT_ROLE = { isolate: 'isolation point', relieve: 'relief', restrain: 'restraint' } as const;
const POINT_USE = { isolate: 'Cuts off the', relieve: 'Lets out the', restrain: 'Holds the' } as const;

function zoneLines(family: Family, name: string | undefined): readonly (string | undefined)[] {
  if (name === undefined) return ['It has no zone, so it lies in the whole machine: every source counts.'];
  const zone = find(family.zones, name);
  return [all('Endangered there by', zone?.endangeredBy ?? [])];
}

function equipmentLines(thing: Thing, family: Family): readonly string[] | undefined {
  return EQUIPMENT[thing.kind]?.(family, thing.name)?.filter((line) => line !== undefined);
}

function libraryLines({ kind, name }: Thing, registers: Registers): readonly string[] | undefined {
  const lines = (list: readonly (string | undefined)[] | undefined) => list?.filter((line) => line !== undefined);
  if (kind === 'tool') {
    const one = find(registers.tools, name);
    return lines(
      one && [
        `${one.protective ? 'Protective equipment' : 'Tool'}${one.kind === undefined ? '' : `: ${one.kind}`}${one.size === undefined ? '' : `, ${one.size}`}.`,
        said('Range', one.range),
        said('Resolution', one.resolution),
        said('Calibrated every', one.calibration),
        one.contact ? 'Reads by touching the machine.' : undefined,
        one.temporary ? 'Stays on the machine while in use, and is owed out.' : undefined,
        one.makes === undefined ? undefined : `It makes energy: ${one.makes}.`,
        also(one.aliases),
      ],
    );
  }
  if (kind === 'consumable') {
    const one = find(registers.consumables, name);
    return lines(
      one && [
        `Consumable${one.kind === undefined ? '' : `: ${one.kind}`}.`,
        said('Amount', one.amount),
        said('Rated for', one.rating),
        said('Safety data:', one.safetyData),
        all('Needs', one.needs),
        also(one.aliases),
      ],
    );
  }
  if (kind === 'replacement') {
    const one = find(registers.replacements, name);
    return lines(
      one && [
        `Replacement part${one.number === undefined ? '' : ` ${one.number}`}.`,
        said('Takes the place of the', one.renews),
        all('For', one.models ?? []),
        one.oneUse ? 'Used once.' : undefined,
        also(one.aliases),
      ],
    );
  }
  if (kind === 'document') {
    const one = registers.documents.find((document) => same(document.number, name));
    return lines(
      one && [`Document from elsewhere: ${one.title}.`, said('Revision', one.revision), said('Ask for it at', one.ask), also(one.aliases)],
    );
  }
  if (kind === 'model') {
    const one = find(registers.models, name);
    return lines(
      one && [
        `Model of the ${one.family}.`,
        ...Object.entries(one.attributes).map(([key, value]) => `${key}: ${value}.`),
        all('Options:', one.options),
        one.serials.length > 1
          ? `Serial numbers: ${one.serials.map(({ from, to }) => (from === undefined ? `up to ${to}` : to === undefined ? `from ${from}` : `${from} to ${to}`)).join('; ')}.`
          : undefined,
        also(one.aliases ?? []),
      ],
    );
  }
  if (kind === 'option') {
    const one = find(registers.options, name);
    const models = registers.models.filter((model) => model.options.some((option) => same(option, name))).map((model) => model.name);
    return lines(one && ['Option.', all('Fitted to some', models), also(one.aliases)]);
  }
  return undefined;
}
