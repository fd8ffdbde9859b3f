/**
 * Attributes of models ("rod diameter") where they stand: as keys of the register, and in the formulas of limits. The reader knows no other
 * use of them. A formula of a procedure for two families that both have the attribute stands for each of them.
 */
import { eachBlock, type LibraryFacts, type ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { foldText, type Prose, proseSpan } from '../format/index.ts';
import { formulaNames, type ModelAttributes, parseQuantity } from '../quantities/index.ts';
import { familiesOf, type Registers } from '../registers/index.ts';
import type { Named } from './model.ts';
import type { NamedPlace } from './places.ts';
import type { YamlVisit } from './places-yaml.ts';

/** Fields of a model, and of its ranges of serial numbers, that are no attributes. */
const OWN: ReadonlySet<string> = new Set(['family', 'options', 'serials', 'also']);
export const BOUNDS: ReadonlySet<string> = new Set(['from', 'to']);
export const isModelField = (name: string): boolean => OWN.has(name) || BOUNDS.has(name);

/** A key below a model of equipment.yaml; undefined where it is none of an attribute. */
export function attributeKey({ path, key, scalar }: YamlVisit, registers: Registers): Named | undefined {
  if (!key || path[0] !== 'models' || path[1] === undefined) return undefined;
  const own = path.length === 2 ? OWN : path.length === 3 && path[2] === 'serials' ? BOUNDS : undefined;
  const name = scalar.text.trim();
  if (own === undefined || own.has(name)) return undefined;
  const family = registers.models.find((model) => model.name === path[1])?.family;
  return family === undefined || family === '' ? undefined : { kind: 'attribute', family, name: firstSpelling(name, family, registers) };
}

/** All attributes of a family, its ranges of serial numbers included. */
export function attributesIn(family: string, { models }: Registers): ModelAttributes {
  const all: Record<string, string> = {};
  for (const model of models)
    if (model.family === family)
      for (const [name, value] of [model, ...model.serials].flatMap(({ attributes }) => Object.entries(attributes))) all[name] ??= value;
  return all;
}

/** "Stroke" and "stroke" are one attribute: the one that is written first. */
function firstSpelling(name: string, family: string, registers: Registers): string {
  return Object.keys(attributesIn(family, registers)).find((one) => foldText(one) === foldText(name)) ?? name;
}

/** In the formula of a front matter's limit. */
export function attributesInFront({ path, key, scalar }: YamlVisit, facts: ProcedureFacts, { registers }: LibraryFacts): NamedPlace[] {
  if (key || path[0] !== 'measurements' || path[2] !== 'limits' || !/^(?:lower|upper)$/.test(path.at(-1) ?? '')) return [];
  const source = facts.source.text.slice(scalar.span.start, scalar.span.end);
  return inFormula(source, facts, registers).map(({ named, at, end }) => ({
    named,
    span: { start: scalar.span.start + at, end: scalar.span.start + end },
    role: 'field',
    how: 'attribute',
  }));
}

/** In the cells of the tables that a measurement takes its limits from. */
export function attributesInTables(facts: ProcedureFacts, { registers }: LibraryFacts): NamedPlace[] {
  const tables = new Set(facts.head.measurements.flatMap(({ table }) => (table === undefined ? [] : [table])));
  const blocks = [...facts.tree.preface, ...facts.tree.sections.flatMap((section) => section.blocks)];
  const cells: Prose[] = [...eachBlock(blocks, 'table')]
    .filter(({ id }) => id !== undefined && tables.has(id))
    .flatMap(({ rows }) => rows.flatMap((row) => row.cells.slice(1).map((cell) => cell.prose)));
  return cells.flatMap((prose) =>
    inFormula(prose.text, facts, registers).map(({ named, at, end }): NamedPlace => {
      const span: Span = proseSpan(prose, at, end);
      return { named, span, role: 'table', how: 'attribute' };
    }),
  );
}

function inFormula(text: string, facts: ProcedureFacts, registers: Registers): { named: Named; at: number; end: number }[] {
  if (parseQuantity(text)) return [];
  return familiesOf(facts.head, registers).flatMap((family) =>
    formulaNames(text, attributesIn(family.name, registers)).map(({ name, at, end }) => ({
      named: { kind: 'attribute', family: family.name, name: firstSpelling(name, family.name, registers) },
      at,
      end,
    })),
  );
}
