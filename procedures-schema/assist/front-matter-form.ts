/** The front matter of a procedure as a form: its fields in the order of the schema, what they may hold, and what is said of them. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { Finding, Span, TextEdit } from '../finding.ts';
import { type YamlMap, type YamlNode, yamlGet } from '../format/index.ts';
import { describeField, SCHEMAS } from '../schemas/index.ts';
import { type Choice, fieldAnswer } from './field-choices.ts';
import { addEntry, entryLines, entryOf, removeEntry, setEntry, type YamlText, type YamlValue } from './yaml-edit.ts';
import { listEdits } from './yaml-list-edit.ts';

export type FieldKind = 'text' | 'choice' | 'list' | 'measurements';

/** One line of a list: a name alone, or with what else is said of it. */
export interface ListLine {
  readonly name: string;
  readonly quantity?: string;
  readonly models?: readonly string[];
  readonly note?: string;
}

export interface MeasurementLine {
  readonly name: string;
  readonly quantity?: string;
  readonly at?: string;
  readonly with?: string;
  readonly pass?: string;
  readonly fail?: string;
  /** As typed where it is text ("table drift-limits", "5 mm ± 0.2 mm"), or by lower, upper, nominal, tolerance, or by model. */
  readonly limits?: string | Readonly<Record<string, string | Readonly<Record<string, string>>>>;
}

export interface FormField {
  readonly key: string;
  readonly kind: FieldKind;
  readonly description: string;
  readonly required: boolean;
  readonly present: boolean;
  /** text and choice. */
  readonly text: string;
  /** list; `none` is told apart from a list that is not there. */
  readonly lines: readonly ListLine[];
  readonly none: boolean;
  /** list: whether a line may say more than a name. */
  readonly listed: boolean;
  readonly measurements: readonly MeasurementLine[];
  /** Fixed words for a choice, names that the registers have for a list or text; others may be typed where `open`. */
  readonly choices: readonly Choice[];
  readonly open: boolean;
  readonly examples: readonly string[];
  /** Findings in this field, as sentences. */
  readonly messages: readonly { readonly severity: Finding['severity']; readonly text: string }[];
  readonly span?: Span;
}

export interface FrontMatterForm {
  readonly file: string;
  readonly fields: readonly FormField[];
  /** Findings in the front matter that belong to no field. */
  readonly messages: FormField['messages'];
}

const LISTED = /"#\/\$defs\/listed"/;
const KEYS: readonly string[] = Object.keys(SCHEMAS.procedure.properties ?? {});

export function frontMatterForm(facts: ProcedureFacts, library: LibraryFacts, findings: readonly Finding[] = []): FrontMatterForm {
  const root = facts.tree.front?.root;
  const own = findings.filter(
    ({ file, span }) => file === facts.file && span.start >= facts.head.span.start && span.end <= facts.head.span.end,
  );
  const told = new Set<Finding>();
  const fields = KEYS.map((key): FormField => {
    const entry = entryOf(root, key);
    const { note, choices } = fieldAnswer('procedure', [key], 'value', library, facts);
    const inside = entry ? own.filter(({ span }) => span.start >= entry.span.start && span.end <= entry.span.end) : [];
    for (const finding of inside) told.add(finding);
    const kind = kindOf(key);
    const value = entry?.value;
    const lines = kind === 'list' ? linesOf(value) : [];
    return {
      key,
      kind,
      description: note?.description ?? '',
      required: describeField('procedure', [])?.required.includes(key) === true,
      present: entry !== undefined,
      text: (kind === 'text' || kind === 'choice') && value?.kind === 'scalar' ? value.text : '',
      lines,
      none: value?.kind === 'scalar' && value.text.trim().toLowerCase() === 'none',
      listed: kind === 'list' && LISTED.test(JSON.stringify(SCHEMAS.procedure.properties?.[key] ?? {})),
      measurements: kind === 'measurements' ? measurementsOf(value) : [],
      choices,
      open: kind !== 'choice',
      examples: (note?.examples ?? []).map((example) => example.replace(/^"(.*)"$/, '$1')),
      messages: inside.map(messageOf),
      ...(entry ? { span: entry.span } : {}),
    };
  });
  return { file: facts.file, fields, messages: own.filter((finding) => !told.has(finding)).map(messageOf) };
}

const messageOf = ({ severity, message, expected }: Finding): FormField['messages'][number] => ({
  severity,
  text: expected === undefined ? message : `${message} Right would be: ${expected}.`,
});

function kindOf(key: string): FieldKind {
  if (key === 'measurements') return 'measurements';
  const note = describeField('procedure', [key]);
  if (note && note.values.length > 0) return 'choice';
  return note?.forms.includes('list') ? 'list' : 'text';
}

function textIn(node: YamlNode | undefined, key: string): string | undefined {
  const at = yamlGet(node, key);
  return at?.kind === 'scalar' && at.text !== '' ? at.text : undefined;
}

function linesOf(node: YamlNode | undefined): readonly ListLine[] {
  const items = node === undefined ? [] : node.kind === 'seq' ? node.items : [node];
  return items.flatMap((item): ListLine[] => {
    if (item.kind === 'scalar') return item.text.trim() === '' || item.text.trim().toLowerCase() === 'none' ? [] : [{ name: item.text }];
    const [name, quantity, note] = [textIn(item, 'name'), textIn(item, 'quantity'), textIn(item, 'note')];
    const models = linesOf(yamlGet(item, 'models')).map((line) => line.name);
    if (name === undefined) return [];
    return [
      {
        name,
        ...(quantity === undefined ? {} : { quantity }),
        ...(models.length === 0 ? {} : { models }),
        ...(note === undefined ? {} : { note }),
      },
    ];
  });
}

function measurementsOf(node: YamlNode | undefined): readonly MeasurementLine[] {
  if (node?.kind !== 'map') return [];
  return node.entries.map(({ key, value }): MeasurementLine => {
    const texts = Object.fromEntries(
      (['quantity', 'at', 'with', 'pass', 'fail'] as const).flatMap((field) => {
        const text = textIn(value, field);
        return text === undefined ? [] : [[field, text]];
      }),
    );
    const limits = yamlGet(value, 'limits');
    const read = limits?.kind === 'scalar' ? limits.text : limits?.kind === 'map' ? plainLimits(limits) : undefined;
    return { name: key.text, ...texts, ...(read === undefined ? {} : { limits: read }) };
  });
}

function plainLimits(map: YamlMap): Exclude<MeasurementLine['limits'], string | undefined> {
  return Object.fromEntries(
    map.entries.map(({ key, value }) => [
      key.text,
      value?.kind === 'map'
        ? Object.fromEntries(value.entries.map((own) => [own.key.text, own.value?.kind === 'scalar' ? own.value.text : '']))
        : value?.kind === 'scalar'
          ? value.text
          : '',
    ]),
  );
}

// ---------------------------------------------------------------- edits back

/** What a form gives back for one field; `undefined` takes the field out. */
export type FieldValue = string | readonly ListLine[] | readonly MeasurementLine[] | undefined;

/** Edits for one field. Nothing but what the value changes is touched: comments, order and quotes of the rest stay. */
export function formEdits(facts: ProcedureFacts, key: string, value: FieldValue): readonly TextEdit[] {
  const yaml: YamlText = { file: facts.file, text: facts.source.text };
  const root = facts.tree.front?.root;
  if (root?.kind !== 'map') return value === undefined ? [] : intoEmpty(facts, key, value);
  const entry = entryOf(root, key);
  if (value === undefined) return entry ? [removeEntry(yaml, root, entry)] : [];
  if (!entry) return [addEntry(yaml, root, key, yamlValue(key, value), before(root, key))];
  if (typeof value === 'string')
    return entry.value?.kind === 'scalar' && entry.value.text === value ? [] : [setEntry(yaml, root, entry, value)];
  if (key === 'measurements') return measurementEdits(yaml, root, entry, value as readonly MeasurementLine[]);
  return listEdits(yaml, root, entry, (value as readonly ListLine[]).map(lineValue), linesOf(entry.value).map(lineValue));
}

function intoEmpty(facts: ProcedureFacts, key: string, value: Exclude<FieldValue, undefined>): readonly TextEdit[] {
  const { text } = facts.source;
  const front = facts.tree.front;
  const made = entryLines(key, yamlValue(key, value), 0);
  if (!front) return [{ file: facts.file, start: 0, end: 0, text: `---\n${made}---\n${text === '' ? '' : '\n'}` }];
  const at = text.indexOf('\n', front.span.start) + 1;
  return [{ file: facts.file, start: at, end: at, text: made }];
}

/** The field that comes last of those that the schema lists before this one. */
function before(root: YamlMap, key: string): YamlMap['entries'][number] | undefined {
  const rank = (name: string): number => KEYS.indexOf(name.trim().toLowerCase());
  const own = rank(key);
  return root.entries
    .filter((entry) => rank(entry.key.text) !== -1 && rank(entry.key.text) < own)
    .sort((a, b) => a.key.span.start - b.key.span.start)
    .at(-1);
}

function yamlValue(key: string, value: Exclude<FieldValue, undefined>): YamlValue {
  if (typeof value === 'string') return value;
  if (key !== 'measurements') return (value as readonly ListLine[]).length === 0 ? 'none' : (value as readonly ListLine[]).map(lineValue);
  return Object.fromEntries((value as readonly MeasurementLine[]).map((line) => [line.name, measurementValue(line)]));
}

export function lineValue(line: ListLine): YamlValue {
  const { name, quantity, models, note } = line;
  if (quantity === undefined && models === undefined && note === undefined) return name;
  return {
    name,
    ...(quantity === undefined ? {} : { quantity }),
    ...(models === undefined ? {} : { models }),
    ...(note === undefined ? {} : { note }),
  };
}

export function measurementValue({ name: _, ...fields }: MeasurementLine): { readonly [key: string]: YamlValue } {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as { readonly [key: string]: YamlValue };
}

/** By name: those that stay are changed field by field, those that go or come are taken out or put in whole. */
function measurementEdits(
  yaml: YamlText,
  root: YamlMap,
  entry: YamlMap['entries'][number],
  wanted: readonly MeasurementLine[],
): readonly TextEdit[] {
  const map = entry.value;
  if (map?.kind !== 'map' || wanted.length === 0)
    return wanted.length === 0 ? [removeEntry(yaml, root, entry)] : [setEntry(yaml, root, entry, yamlValue('measurements', wanted))];
  const out: TextEdit[] = [];
  const known = measurementsOf(map);
  let last: YamlMap['entries'][number] | undefined;
  for (const own of map.entries) if (!wanted.some(({ name }) => name === own.key.text)) out.push(removeEntry(yaml, map, own));
  for (const line of wanted) {
    const own = map.entries.find(({ key }) => key.text === line.name);
    if (!own) {
      out.push(addEntry(yaml, map, line.name, measurementValue(line), last ?? map.entries.at(-1)));
      continue;
    }
    last = own;
    out.push(
      ...fieldEdits(
        yaml,
        map,
        own,
        measurementValue(line),
        measurementValue(known.find(({ name }) => name === line.name) ?? { name: line.name }),
      ),
    );
  }
  return out;
}

function fieldEdits(
  yaml: YamlText,
  map: YamlMap,
  own: YamlMap['entries'][number],
  wanted: { readonly [key: string]: YamlValue },
  known: { readonly [key: string]: YamlValue },
): readonly TextEdit[] {
  const fields = own.value;
  if (fields?.kind !== 'map') return JSON.stringify(wanted) === JSON.stringify(known) ? [] : [setEntry(yaml, map, own, wanted)];
  const out: TextEdit[] = [];
  for (const key of Object.keys(known)) {
    const entry = entryOf(fields, key);
    if (!(key in wanted) && entry) out.push(removeEntry(yaml, fields, entry));
  }
  for (const [key, value] of Object.entries(wanted)) {
    if (JSON.stringify(value) === JSON.stringify(known[key])) continue;
    const entry = entryOf(fields, key);
    out.push(entry ? setEntry(yaml, fields, entry, value) : addEntry(yaml, fields, key, value, fields.entries.at(-1)));
  }
  return out;
}
