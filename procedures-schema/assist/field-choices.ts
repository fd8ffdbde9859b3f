/** What may stand in a field of front matter or of a register: fixed words from the schemas, names from the registers. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import { UNITS } from '../quantities/index.ts';
import { type Family, familiesOf, type Registers } from '../registers/index.ts';
import { describeField, type FieldNote, type SchemaName } from '../schemas/index.ts';

export interface Choice {
  readonly value: string;
  readonly detail: string;
}

type Choices = (library: LibraryFacts, facts: ProcedureFacts | undefined, family: Family | undefined) => readonly Choice[];

const named = (list: readonly { readonly name: string }[], detail: string): readonly Choice[] =>
  list.map(({ name }) => ({ value: name, detail }));
const registers =
  (of: (all: Registers) => readonly Choice[]): Choices =>
  (library) =>
    of(library.registers);
const inFamily =
  (of: (family: Family) => readonly Choice[]): Choices =>
  (library, _facts, family) =>
    (family ? [family] : library.registers.families).flatMap(of);

const models: Choices = registers((all) => all.models.map(({ name, family }) => ({ value: name, detail: family })));
const options: Choices = (library, facts) => {
  const own = new Set(facts?.head.models.map(({ name }) => name));
  const fitting = library.registers.models.filter((model) => own.has(model.name)).flatMap((model) => model.options);
  return named(library.registers.options, 'option').filter(({ value }) => fitting.length === 0 || fitting.includes(value));
};
const tools: Choices = registers((all) =>
  all.tools
    .filter((tool) => !tool.protective)
    .map(({ name, kind, range }) => ({ value: name, detail: [kind, range].filter(Boolean).join(', ') })),
);
const protection: Choices = registers((all) =>
  named(
    all.tools.filter((tool) => tool.protective),
    'protective equipment',
  ),
);
const instruments: Choices = registers((all) =>
  all.tools
    .filter((tool) => tool.range !== undefined || tool.resolution !== undefined)
    .map(({ name, range, kind }) => ({ value: name, detail: range ?? kind ?? 'instrument' })),
);
const parts: Choices = (library, facts) => {
  const own = facts ? familiesOf(facts.head, library.registers).flatMap((family) => family.parts.map(({ name }) => name)) : [];
  const fits = (renews: string | undefined): boolean => own.length === 0 || renews === undefined || own.includes(renews);
  return library.registers.replacements
    .filter(({ renews }) => fits(renews))
    .map(({ name, renews }) => ({ value: name, detail: renews === undefined ? 'replacement part' : `for the ${renews}` }));
};
const symptoms: Choices = registers((all) => all.symptoms.map(({ name, family }) => ({ value: name, detail: family ?? 'symptom' })));
const procedures: Choices = (library) =>
  library.procedures.filter(({ head }) => head.id !== '').map(({ head }) => ({ value: head.id, detail: head.title }));
const points = inFamily((family) => named(family.points, 'point'));
const zones = inFamily((family) => named(family.zones, 'zone'));
const covers = inFamily((family) => named(family.covers, 'cover'));
const sources = inFamily((family) => named(family.sources, 'source of energy'));
const controls = inFamily((family) => named(family.controls, 'control'));
const gauges = inFamily((family) => named(family.gauges, 'gauge'));
const fasteners = inFamily((family) => named(family.fasteners, 'fasteners'));
const partNames = inFamily((family) => named(family.parts, 'part'));
const tables: Choices = (_library, facts) =>
  facts
    ? [...facts.source.text.matchAll(/^(?![ \t]*!\[)[^|\n]*\{#([a-z][a-z0-9-]*)\}[ \t]*\r?$/gm)].map((found) => ({
        value: `table ${found[1]}`,
        detail: 'table of this file',
      }))
    : [];
const kinds: readonly string[] = [...new Set(UNITS.map(({ kind }) => kind))].filter((kind) => kind !== 'count');
const quantities: Choices = () => [
  ...kinds.map((value) => ({ value, detail: 'quantity' })),
  ...['feel', 'sound', 'look'].map((value) => ({ value, detail: 'sensed' })),
];

/** By the last field name of the path; `measurements` and the like first, where one name has several meanings. */
const PROCEDURE: Readonly<Record<string, Choices>> = {
  models,
  options,
  'only on': (library, facts, family) => [...models(library, facts, family), ...options(library, facts, family)],
  symptoms,
  tools,
  consumables: registers((all) => all.consumables.map(({ name, kind }) => ({ value: name, detail: kind ?? 'consumable' }))),
  parts,
  protection,
  requires: procedures,
  with: instruments,
  quantity: quantities,
  limits: tables,
};

const REGISTER: Readonly<Record<string, Choices>> = {
  family: registers((all) => named(all.families, 'family')),
  options: registers((all) => named(all.options, 'option')),
  models,
  'only on': (library, facts, family) => [...models(library, facts, family), ...options(library, facts, family)],
  procedures,
  number: procedures,
  zone: zones,
  behind: covers,
  fasteners,
  of: inFamily((family) => [...named(family.parts, 'part'), ...named(family.covers, 'cover'), ...named(family.points, 'point')]),
  holds: sources,
  'endangered by': sources,
  stops: sources,
  starts: sources,
  shows: sources,
  'try out': controls,
  'shown by': gauges,
  renews: partNames,
  needs: protection,
  'safety data': registers((all) => all.documents.map(({ number, title }) => ({ value: number, detail: title }))),
};

/** Fields whose keys are names: points below isolate, models below limits. */
const KEYS: Readonly<Record<string, Choices>> = {
  isolate: points,
  relieve: points,
  restrain: points,
  limits: (library, facts, family) => {
    const own = facts?.head.models ?? [];
    return own.length > 0 ? named(own, 'model') : models(library, facts, family);
  },
};

export interface FieldAnswer {
  readonly note: FieldNote | undefined;
  /** Values, or names used as keys. */
  readonly choices: readonly Choice[];
}

/** `path` as the schemas count it. */
export function fieldAnswer(
  schema: SchemaName,
  path: readonly (string | number)[],
  at: 'key' | 'value',
  library: LibraryFacts,
  facts: ProcedureFacts | undefined,
): FieldAnswer {
  const note = describeField(schema, path);
  const names = path.filter((part) => typeof part === 'string');
  // Of a list entry written as a map the name is what counts.
  const last = (names.at(-1) === 'name' && names.length > 1 ? names.at(-2) : names.at(-1)) ?? '';
  const family =
    schema === 'equipment' && names[0] === 'families' ? library.registers.families.find((one) => one.name === names[1]) : undefined;
  const fixed = at === 'value' ? [...(note?.values ?? []).map((value) => ({ value, detail: note?.title ?? '' }))] : [];
  const table = at === 'key' ? KEYS : schema === 'procedure' || schema === 'guide' ? PROCEDURE : REGISTER;
  const own =
    Object.hasOwn(table, last) && (at === 'key' || names.length > 1 || schema === 'procedure' || schema === 'guide')
      ? (table[last]?.(library, facts, family) ?? [])
      : [];
  const examples =
    fixed.length + own.length > 0 || at === 'key' ? [] : (note?.examples ?? []).map((value) => ({ value, detail: 'for example' }));
  const none =
    at === 'value' && schema === 'procedure' && NONE.has(last) && names.length === 1
      ? [{ value: 'none', detail: 'said outright: nothing is needed' }]
      : [];
  return { note, choices: [...fixed, ...own, ...examples, ...none] };
}

const NONE = new Set(['tools', 'consumables', 'parts', 'protection']);

const BY_FILE: Readonly<Record<string, SchemaName>> = {
  'library.yaml': 'library',
  'registers/equipment.yaml': 'equipment',
  'registers/tools.yaml': 'tools',
  'registers/consumables.yaml': 'consumables',
  'registers/parts.yaml': 'parts',
  'registers/documents.yaml': 'documents',
  'registers/notices.yaml': 'notices',
  'registers/symptoms.yaml': 'symptoms',
};

export function schemaOf(path: string): SchemaName | undefined {
  if (/^guides\//.test(path)) return 'guide';
  if (/\.md$/i.test(path)) return 'procedure';
  return BY_FILE[path.replace(/\.yml$/i, '.yaml')];
}
