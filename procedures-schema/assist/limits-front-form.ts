/**
 * Limits that the front matter gives, for all models or for each by name, as a form. What was typed otherwise is written in its place and nothing
 * else of the text is touched. Limits in a table of the text are limits-table-form.ts.
 */
import { type LibraryFacts, measuredOf, type ProcedureFacts } from '../checks/index.ts';
import type { TextEdit } from '../finding.ts';
import type { YamlMap, YamlNode } from '../format/index.ts';
import { limitModels, namedRange } from '../quantities/index.ts';
import type { Measurement } from '../registers/index.ts';
import { type Insertion, insertionOf, stepAt } from './insertion.ts';
import { type LimitsColumn, type LimitsForm, type LimitsRow, notesOf, type TypedCell } from './limits-form-model.ts';
import { addEntry, endOfEntry, entryOf, flowOf, indentOf, isFlow, removeEntry, setEntry, type YamlText } from './yaml-edit.ts';
import { yamlScalar } from './yaml-text.ts';

type Entry = YamlMap['entries'][number];

/** The row that stands for every model. */
const ALL = 'all models';
const KEYS = ['lower', 'upper', 'nominal', 'tolerance'] as const;

/** The measurement of the front matter that the offset stands in. */
export function measurementAt(facts: ProcedureFacts, offset: number): Measurement | undefined {
  const own = entriesOf(entryOf(facts.tree.front?.root, 'measurements')?.value).find(
    ({ key, value }) => key.span.start <= offset && offset <= Math.max(key.span.end + 1, lastOf(value)),
  );
  return own && facts.head.measurements.find(({ name }) => name === own.key.text.trim());
}

/** Undefined: no limits of the front matter are meant, or they are none that are understood here. */
export function frontForm(facts: ProcedureFacts, library: LibraryFacts, offset: number): LimitsForm | undefined {
  const measurement = measurementAt(facts, offset) ?? measuredIn(facts, library, offset);
  const found = measurement && givenFor(facts, measurement.name);
  return found && formOf(found, facts, library);
}

/** Undefined: at that place begin no limits of the front matter. */
export function frontEdits(facts: ProcedureFacts, library: LibraryFacts, at: number, typed: readonly TypedCell[]): Insertion | undefined {
  const found = facts.head.measurements.flatMap(({ name }) => givenFor(facts, name) ?? []).find(({ entry }) => entry.key.span.start === at);
  if (!found) return undefined;
  const form = formOf(found, facts, library);
  const yaml: YamlText = { file: facts.file, text: facts.source.text };
  const edits = form.rows.flatMap((row, rowAt) => {
    const cells = form.columns.flatMap(({ heading }, column) => {
      const before = row.cells[column] ?? '';
      const text = (typed.find((one) => one.row === rowAt && one.column === column)?.text ?? before).trim();
      return text === before ? [] : [{ key: heading, text }];
    });
    return cells.length === 0 ? [] : rowEdits(found, row, cells, yaml);
  });
  const [main] = edits;
  if (!main) return { ok: false, reason: 'Nothing is changed yet.' };
  return insertionOf(`Limits of ${found.name}`, edits, main, 0, library, notesOf(form, typed, library, true));
}

// ---------------------------------------------------------------- what is given

interface Given {
  readonly name: string;
  /** The fields of the measurement, and the one that gives its limits. */
  readonly fields: YamlMap;
  readonly entry: Entry;
  /** For all models at once; for each; or as one value with its tolerance. */
  readonly kind: 'all' | 'each' | 'one';
}

function givenFor(facts: ProcedureFacts, name: string): Given | undefined {
  const fields = entriesOf(entryOf(facts.tree.front?.root, 'measurements')?.value).find(({ key }) => key.text.trim() === name)?.value;
  const entry = entryOf(fields, 'limits');
  if (fields?.kind !== 'map' || !entry?.value) return undefined;
  const { value } = entry;
  if (value.kind === 'scalar')
    return /^\s*table\b/i.test(value.text) || value.text.trim() === '' ? undefined : { name, fields, entry, kind: 'one' };
  if (value.kind !== 'map') return undefined;
  return { name, fields, entry, kind: KEYS.some((key) => entryOf(value, key)) ? 'all' : 'each' };
}

/** The first that the step at the offset measures. */
function measuredIn(facts: ProcedureFacts, library: LibraryFacts, offset: number): Measurement | undefined {
  const step = offset > (facts.tree.front?.span.end ?? 0) ? stepAt(facts, offset)?.step : undefined;
  const said = step ? facts.source.text.slice(step.span.start, step.span.end).toLowerCase() : '';
  return measuredOf(facts, library.registers).find(({ measurement }) => said.includes(`[${measurement.name.toLowerCase()}]`))?.measurement;
}

function formOf({ name, entry, kind }: Given, facts: ProcedureFacts, library: LibraryFacts): LimitsForm {
  const models = limitModels(facts.head, library.registers);
  const { value } = entry;
  const rows = kind === 'each' ? entriesOf(value) : [];
  const known = rows.filter((row) => namedRange(row.key.text.trim(), models) !== undefined && row.value?.kind === 'map');
  const maps = [value, ...known.map((row) => row.value)];
  const has = (key: string): boolean => maps.some((map) => entryOf(map, key) !== undefined);
  // A limit of one end may get the other.
  const ends = has('lower') || has('upper') || !KEYS.some(has);
  const used = KEYS.filter((key) => has(key) || (ends && (key === 'lower' || key === 'upper')));
  const columns = (kind === 'one' ? ['limits'] : used).map(
    (heading, index): LimitsColumn => ({ index, heading, end: heading === 'lower' || heading === 'upper' ? heading : 'both' }),
  );
  const cellsOf = (map: YamlNode | undefined): readonly string[] => columns.map(({ heading }) => textOf(entryOf(map, heading)?.value));
  const all: LimitsRow[] = kind === 'each' ? [] : [{ index: 0, head: ALL, cells: kind === 'one' ? [textOf(value)] : cellsOf(value) }];
  const each = known.map((row): LimitsRow => ({ index: rows.indexOf(row), head: row.key.text.trim(), cells: cellsOf(row.value) }));
  const missing =
    kind !== 'each' ? [] : models.filter((model) => !rows.some(({ key }) => namedRange(key.text.trim(), models)?.model === model));
  return {
    at: entry.key.span.start,
    measurements: [name],
    where: 'front matter',
    columns,
    rows: [...all, ...each, ...missing.map((model): LimitsRow => ({ index: undefined, head: model.name, cells: columns.map(() => '') }))],
    kept: rows
      .filter((row) => !known.includes(row))
      .map(({ key }) => `What stands under "${key.text.trim()}" is no limits of a model of this procedure; it stays as it is.`),
  };
}

// ---------------------------------------------------------------- edits

function rowEdits(
  { fields, entry, kind }: Given,
  row: LimitsRow,
  cells: readonly { readonly key: string; readonly text: string }[],
  yaml: YamlText,
): readonly TextEdit[] {
  const limits = entry.value as YamlNode;
  if (kind === 'one') return cells.flatMap(({ text }) => (text === '' ? [] : [setEntry(yaml, fields, entry, text)]));
  if (limits.kind !== 'map') return [];
  if (row.index === undefined) return [newRow(limits, row.head, Object.fromEntries(cells.map(({ key, text }) => [key, text])), yaml)];
  const map = kind === 'all' ? limits : limits.entries[row.index]?.value;
  if (map?.kind !== 'map') return [];
  const left = cells.filter(({ text }) => text !== '');
  if (left.length < cells.length - 1 && isFlow(yaml, map)) return [wholeRow(map, cells, yaml)];
  return cells.map(({ key, text }) => {
    const own = entryOf(map, key);
    if (!own) return addEntry(yaml, map, key, text, map.entries.at(-1));
    return text === '' ? removeEntry(yaml, map, own) : setEntry(yaml, map, own, text);
  });
}

/** Two entries taken off one line would take the comma between them twice. */
function wholeRow(map: YamlMap, cells: readonly { readonly key: string; readonly text: string }[], yaml: YamlText): TextEdit {
  const before = map.entries.map(({ key, value }): [string, string] => [key.text.trim(), textOf(value)]);
  const now = { ...Object.fromEntries(before), ...Object.fromEntries(cells.map(({ key, text }) => [key, text])) };
  const left = Object.fromEntries(Object.entries(now).filter(([, text]) => text !== ''));
  return { file: yaml.file, start: map.span.start, end: map.span.end, text: flowOf(left) };
}

/** As the rows before it are written: on one line, or a line for each end. */
function newRow(limits: YamlMap, model: string, values: Readonly<Record<string, string>>, yaml: YamlText): TextEdit {
  const last = limits.entries.at(-1);
  if (isFlow(yaml, limits) || !last?.value || !isFlow(yaml, last.value)) return addEntry(yaml, limits, model, values, last);
  const at = endOfEntry(yaml, last);
  const line = `${' '.repeat(indentOf(yaml, limits))}${yamlScalar(model)}: ${flowOf(values)}\n`;
  return { file: yaml.file, start: at, end: at, text: yaml.text[at - 1] === '\n' ? line : `\n${line}` };
}

const entriesOf = (node: YamlNode | undefined): readonly Entry[] => (node?.kind === 'map' ? node.entries : []);
const textOf = (node: YamlNode | undefined): string => (node?.kind === 'scalar' ? node.text.trim() : '');
const lastOf = (node: YamlNode | undefined): number => node?.span.end ?? 0;
