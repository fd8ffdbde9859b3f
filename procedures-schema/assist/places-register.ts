/** Named places of a register file: what is written down in it, and how its entries refer to each other. */
import type { LibraryFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { foldText, type YamlFile } from '../format/index.ts';
import { type Family, type Names, namesFor, type ProcedureHead, type Registers, spellingsOf, type ThingKind } from '../registers/index.ts';
import type { Named } from './model.ts';
import type { NamedPlace } from './places.ts';
import { attributeKey } from './places-attribute.ts';
import { mentionsIn, namedOf } from './places-text.ts';
import { type YamlVisit, yamlVisits } from './places-yaml.ts';

const KNOWN = new WeakMap<YamlFile, { readonly library: LibraryFacts; readonly places: readonly NamedPlace[] }>();

export function registerPlaces(file: YamlFile, library: LibraryFacts): readonly NamedPlace[] {
  const known = KNOWN.get(file);
  if (known && known.library === library) return known.places;
  const name = /([^/]+)\.ya?ml$/.exec(file.source.path)?.[1] ?? '';
  const { text } = file.source;
  const context = { library, text };
  const places = yamlVisits(file.root, text).flatMap((visit) => aliasPlaces(name, visit) ?? READERS[name]?.(visit, context) ?? []);
  KNOWN.set(file, { library, places });
  return places;
}

interface Context {
  readonly library: LibraryFacts;
  readonly text: string;
}

type Reader = (visit: YamlVisit, context: Context) => readonly NamedPlace[];

const LISTS = {
  energy: ['source', 'sources'],
  points: ['point', 'points'],
  controls: ['control', 'controls'],
  covers: ['cover', 'covers'],
  zones: ['zone', 'zones'],
  parts: ['part', 'parts'],
  fasteners: ['fastener', 'fasteners'],
  gauges: ['gauge', 'gauges'],
} as const satisfies Readonly<Record<string, readonly [ThingKind, keyof Family]>>;

type EquipmentKind = keyof typeof LISTS;

/** Fields whose values, or keys, name other things of the family. */
const FIELDS: Readonly<Record<string, readonly EquipmentKind[]>> = {
  isolate: ['points'],
  relieve: ['points'],
  restrain: ['points'],
  'try out': ['controls'],
  'shown by': ['gauges'],
  zone: ['zones'],
  behind: ['covers'],
  fasteners: ['fasteners'],
  of: ['parts', 'covers', 'points', 'controls', 'gauges'],
  holds: ['energy'],
  'endangered by': ['energy'],
  stops: ['energy'],
  starts: ['energy'],
  shows: ['energy'],
};

/** Fields whose words are read by people. */
const PROSE: ReadonlySet<string> = new Set(['size', 'none because', 'when disturbed', 'text']);

const READERS: Readonly<Record<string, Reader>> = {
  equipment(visit, context) {
    const [top, first, list, , field] = visit.path;
    if (top === undefined) return [];
    if (visit.path.length === 1 && visit.key) {
      if (top === 'families') return thing(visit, context, 'machine', context.library.registers.families, 'definition', true);
      if (top === 'models') return thing(visit, context, 'model', context.library.registers.models, 'definition');
      if (top === 'options') return thing(visit, context, 'option', context.library.registers.options, 'definition');
    }
    const attribute = attributeKey(visit, context.library.registers);
    if (attribute) return [place(visit, attribute, 'definition')];
    const last = visit.path.at(-1) ?? '';
    if (top === 'models' && !visit.key && visit.path.length === 3) {
      if (last === 'family') return thing(visit, context, 'machine', context.library.registers.families, 'field', true);
      if (last === 'options') return thing(visit, context, 'option', context.library.registers.options, 'field');
    }
    if (top !== 'families' || first === undefined || list === undefined) return [];
    if (last === 'only on' && !visit.key) return modelOrOption(visit, context);
    const family = context.library.registers.families.find((one) => one.name === first);
    if (!family) return [];
    if (visit.path.length === 3 && visit.key && Object.hasOwn(LISTS, list))
      return inFamily(visit, context, family, [list as EquipmentKind], 'definition');
    const wanted = Object.hasOwn(FIELDS, field ?? '') ? FIELDS[field ?? ''] : undefined;
    if (wanted && visit.path.length === 5 && visit.key === POINT_MAPS.has(field ?? ''))
      return inFamily(visit, context, family, wanted, 'field');
    return !visit.key && PROSE.has(last) ? mentions(visit, context, family) : [];
  },
  tools: (visit, context) => keyed(visit, context, 'tools', 'tool', context.library.registers.tools),
  consumables(visit, context) {
    const last = visit.path.at(-1);
    if (!visit.key && last === 'needs') return thing(visit, context, 'tool', context.library.registers.tools, 'field');
    if (!visit.key && last === 'safety data') return document(visit, context);
    return keyed(visit, context, 'consumables', 'consumable', context.library.registers.consumables);
  },
  parts(visit, context) {
    const last = visit.path.at(-1);
    if (!visit.key && last === 'models') return thing(visit, context, 'model', context.library.registers.models, 'field');
    if (!visit.key && last === 'only on') return modelOrOption(visit, context);
    if (!visit.key && last === 'renews') return renews(visit, context);
    return keyed(visit, context, 'parts', 'replacement', context.library.registers.replacements);
  },
  documents: (visit, context) =>
    visit.path.length === 1 && visit.path[0] === 'documents' && visit.key ? document(visit, context, 'definition') : [],
  notices: (visit, context) => (!visit.key && visit.path.at(-1) === 'text' ? mentions(visit, context, undefined) : []),
  symptoms(visit, context) {
    const last = visit.path.at(-1);
    if (visit.path.length === 1 && visit.path[0] === 'symptoms' && visit.key)
      return [place(visit, { kind: 'symptom', name: visit.scalar.text.trim() }, 'definition')];
    if (visit.key) return [];
    if (last === 'family') return thing(visit, context, 'machine', context.library.registers.families, 'field', true);
    if (last === 'models') return thing(visit, context, 'model', context.library.registers.models, 'field');
    if (last === 'options') return thing(visit, context, 'option', context.library.registers.options, 'field');
    return last === 'procedures' || last === 'do' ? document(visit, context) : [];
  },
};

/** Which list of a register holds things of which kind, where a list is not of equipment. */
const LISTED: Readonly<Record<string, ThingKind>> = {
  families: 'machine',
  models: 'model',
  options: 'option',
  tools: 'tool',
  consumables: 'consumable',
  parts: 'replacement',
  documents: 'document',
};

/** "also: [motor]" below an entry: another name of it. */
function aliasPlaces(register: string, { path, scalar, key, flow }: YamlVisit): readonly NamedPlace[] | undefined {
  if (key || path.at(-1) !== 'also') return undefined;
  const name = path.at(-2) ?? '';
  const [top = '', family = '', list = ''] = path;
  const at = (named: Named): readonly NamedPlace[] => [
    { named, span: scalar.span, role: 'field', how: flow ? 'flow' : 'yaml', alias: scalar.text.trim() },
  ];
  if (register === 'symptoms') return path.length === 3 ? at({ kind: 'symptom', name }) : undefined;
  if (path.length === 3 && Object.hasOwn(LISTED, top)) {
    const thing = LISTED[top] as ThingKind;
    return at({ kind: 'thing', thing, name, ...(thing === 'machine' ? { family: name } : {}) });
  }
  if (path.length === 5 && top === 'families' && Object.hasOwn(LISTS, list))
    return at({ kind: 'thing', thing: LISTS[list as EquipmentKind][0], name, family });
  return undefined;
}

/** Fields that are maps from a point to its position. */
const POINT_MAPS: ReadonlySet<string> = new Set(['isolate', 'relieve', 'restrain']);

function place(visit: YamlVisit, named: Named, role: NamedPlace['role']): NamedPlace {
  return { named, span: visit.scalar.span, role, how: visit.flow ? 'flow' : 'yaml' };
}

function thing(
  visit: YamlVisit,
  _context: Context,
  kind: ThingKind,
  list: readonly { readonly name: string; readonly aliases?: readonly string[] }[],
  role: NamedPlace['role'],
  ownFamily = false,
): readonly NamedPlace[] {
  const name = spellingsOf(list).get(foldText(visit.scalar.text));
  if (name === undefined) return [];
  return [place(visit, { kind: 'thing', thing: kind, name, ...(ownFamily ? { family: name } : {}) }, role)];
}

function keyed(visit: YamlVisit, context: Context, top: string, kind: ThingKind, list: Parameters<typeof thing>[3]): readonly NamedPlace[] {
  return visit.key && visit.path.length === 1 && visit.path[0] === top ? thing(visit, context, kind, list, 'definition') : [];
}

function inFamily(
  visit: YamlVisit,
  _context: Context,
  family: Family,
  lists: readonly EquipmentKind[],
  role: NamedPlace['role'],
): readonly NamedPlace[] {
  for (const list of lists) {
    const [kind, key] = LISTS[list];
    const name = spellingsOf(family[key]).get(foldText(visit.scalar.text));
    if (name !== undefined) return [place(visit, { kind: 'thing', thing: kind, name, family: family.name }, role)];
  }
  return [];
}

function modelOrOption(visit: YamlVisit, context: Context): readonly NamedPlace[] {
  const { options, models } = context.library.registers;
  const own = thing(visit, context, 'option', options, 'field');
  return own.length > 0 ? own : thing(visit, context, 'model', models, 'field');
}

function document(visit: YamlVisit, { library }: Context, role: NamedPlace['role'] = 'field'): readonly NamedPlace[] {
  const typed = visit.scalar.text.trim();
  if (library.procedures.some(({ head }) => head.id === typed)) return [place(visit, { kind: 'document', number: typed }, role)];
  const cited = library.registers.documents.find(({ number }) => foldText(number) === foldText(typed));
  return cited ? [place(visit, { kind: 'thing', thing: 'document', name: cited.number }, role)] : [];
}

/** A replacement takes the place of a part of any family that has one of that name. */
function renews(visit: YamlVisit, { library }: Context): readonly NamedPlace[] {
  for (const family of library.registers.families) {
    const name = spellingsOf(family.parts).get(foldText(visit.scalar.text));
    if (name !== undefined) return [place(visit, { kind: 'thing', thing: 'part', name, family: family.name }, 'field')];
  }
  return [];
}

/** Names in words of a register. Outside a family only those count that one family alone has. */
function mentions(visit: YamlVisit, { library, text }: Context, family: Family | undefined): readonly NamedPlace[] {
  const names = namesOf(library.registers);
  const { span } = visit.scalar;
  const only = (thing: { readonly kind: ThingKind; readonly name: string }): boolean =>
    library.registers.families.filter((one) =>
      Object.values(LISTS).some(([kind, list]) => kind === thing.kind && one[list].some(({ name }) => name === thing.name)),
    ).length <= 1;
  return mentionsIn(text.slice(span.start, span.end), names).flatMap(({ thing: found, at, end }): NamedPlace[] => {
    if (family === undefined ? !only(found) : found.family !== undefined && found.family !== family.name) return [];
    const named = namedOf(found, '', () => undefined);
    const own: Span = { start: span.start + at, end: span.start + end };
    return named ? [{ named, span: own, role: 'mention', how: 'prose' }] : [];
  });
}

const NAMES = new WeakMap<Registers, Names>();

/** The names of all families at once. */
function namesOf(registers: Registers): Names {
  const known = NAMES.get(registers);
  if (known) return known;
  const nowhere = { start: 0, end: 0 };
  const head = { models: registers.models.map(({ name }) => ({ name, span: nowhere })), measurements: [], roles: [] };
  const tree = {
    kind: 'procedure',
    source: { path: '', text: '', bom: false, lineStarts: [0] },
    front: undefined,
    preface: [],
    sections: [],
  } as const;
  const made = namesFor(head as unknown as ProcedureHead, tree, registers, new Map());
  NAMES.set(registers, made);
  return made;
}
