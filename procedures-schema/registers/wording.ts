/**
 * A schema's objection in words for people: what stands there, what is expected, and the nearest right name. One row a keyword;
 * the words about a field come from the schema itself, which also shows them on hover.
 */
import { foldText, type YamlNode } from '../format/index.ts';
import { describeField, type FieldNote, type SchemaName, type Violation } from '../schemas/index.ts';
import { nearestNames } from './nearest.ts';
import { type Place, placeAt } from './plain.ts';
import { type FieldPath, oneOf, pathText, type SchemaProblem, withArticle } from './problem.ts';

interface Case {
  readonly schema: SchemaName;
  readonly root: YamlNode | undefined;
  readonly violation: Violation;
  /** Where to point when there is no node to point at. */
  readonly fallback: SchemaProblem['span'];
}

type Words = (one: Case) => SchemaProblem | undefined;

const WORDS: Readonly<Record<string, Words>> = {
  additionalProperties: unknownField,
  required: missingField,
  dependentRequired: (one) =>
    problem(
      one,
      `${subject(one, one.violation.path)} has a "${one.violation.params.property}", but no "${one.violation.params.missingProperty}" that it belongs to.`,
      `"${one.violation.params.missingProperty}" beside it`,
    ),
  type: wrongForm,
  enum: wrongValue,
  const: wrongValue,
  pattern: wrongValue,
  minLength: emptyField,
  minItems: emptyField,
  minProperties: emptyField,
};

export function wordViolation(
  schema: SchemaName,
  root: YamlNode | undefined,
  violation: Violation,
  fallback: SchemaProblem['span'],
): SchemaProblem | undefined {
  const one: Case = { schema, root, violation, fallback };
  const words = WORDS[violation.keyword];
  return words ? words(one) : problem(one, `${subject(one, violation.path)} is not as its schema asks.`);
}

function unknownField(one: Case): SchemaProblem {
  const { schema, root, violation } = one;
  const key = String(violation.params.additionalProperty);
  const path = [...violation.path, key];
  const place = placeAt(root, path);
  const note = describeField(schema, violation.path);
  return unknown(one, path, place.key?.text ?? key, note, place.key?.span);
}

function unknown(one: Case, path: FieldPath, typed: string, note: FieldNote | undefined, span = one.fallback): SchemaProblem {
  const fields = note?.fields ?? [];
  const [nearest] = nearestNames(foldText(typed), fields, 1);
  return {
    span,
    message: `"${typed}" is not a field of ${sort(one, path.slice(0, -1))}${nearest ? `; did you mean "${nearest}"?` : '.'}`,
    actual: typed,
    expected: nearest ?? `one of the fields ${[...fields].sort().join(', ')}`,
    path: pathText(path),
  };
}

/** The sort of thing a path leads to: "an energy source", "the front matter", "limits". */
function sort({ schema }: Case, path: FieldPath): string {
  const note = describeField(schema, path);
  const last = path[path.length - 1];
  if (last === undefined) return `the ${note?.title || 'file'}`;
  if (typeof last === 'string' && describeField(schema, path.slice(0, -1))?.fields.includes(last)) return `"${last}"`;
  return withArticle(note?.title || 'this entry');
}

function missingField(one: Case): SchemaProblem {
  const { schema, root, violation } = one;
  const missing = String(violation.params.missingProperty);
  const path = [...violation.path, missing];
  const place = placeAt(root, violation.path);
  const typed = place.value?.kind === 'map' ? place.value.entries.find(({ key }) => foldText(key.text) === missing) : undefined;
  const note = describeField(schema, path);
  const expected = note?.description ? { expected: note.description } : {};
  if (typed)
    return {
      span: typed.key.span,
      message: `"${missing}" of ${subject(one, violation.path, false)} is empty.`,
      ...expected,
      path: pathText(path),
    };
  // A misspelt key next to it is told by its own finding, or, where any name is allowed, here.
  const [slip] =
    place.value?.kind === 'map' && describeField(schema, violation.path)?.open
      ? nearestNames(
          missing,
          place.value.entries.map(({ key }) => key.text),
          1,
        )
      : [];
  return {
    span: place.key?.span ?? (violation.path.length > 0 ? place.value?.span : undefined) ?? one.fallback,
    message: `${subject(one, violation.path)} has no "${missing}"${slip ? `; is "${slip}" meant for it?` : '.'}`,
    ...expected,
    path: pathText(path),
  };
}

const FOUND: Readonly<Record<YamlNode['kind'], string>> = { scalar: 'text', seq: 'a list', map: 'fields' };
const WANTED: Readonly<Record<string, string>> = { text: 'text', list: 'a list', fields: 'fields' };

function wrongForm(one: Case): SchemaProblem {
  const { schema, root, violation } = one;
  const place = placeAt(root, violation.path);
  const note = describeField(schema, violation.path);
  const last = violation.path[violation.path.length - 1];
  // A name of the writer's own with a value that no such name has is, more often than not, a slip of a fixed field.
  if (typeof last === 'string') {
    const holder = describeField(schema, violation.path.slice(0, -1));
    if (holder?.open && !holder.fields.includes(last) && nearestNames(last, holder.fields, 1).length > 0)
      return unknown(one, violation.path, place.key?.text ?? last, holder, place.key?.span);
  }
  const found = place.value ? FOUND[place.value.kind] : 'nothing';
  return problem(
    one,
    `${subject(one, violation.path)} holds ${found}, not ${oneOf((note?.forms ?? []).map((form) => WANTED[form] ?? form))}.`,
  );
}

function wrongValue(one: Case): SchemaProblem | undefined {
  const { schema, root, violation } = one;
  const place = placeAt(root, violation.path);
  const typed = place.value?.kind === 'scalar' ? place.value.text : undefined;
  if (typed === undefined) return violation.keyword === 'enum' ? wrongForm(one) : undefined;
  if (typed.trim() === '') return emptyField(one);
  const note = describeField(schema, violation.path);
  const values = note?.values ?? [];
  // Case does not matter in these words, as it does not in names.
  if (values.some((value) => foldText(value) === foldText(typed))) return undefined;
  const [nearest] = nearestNames(foldText(typed), values, 1);
  return problem(
    one,
    `${subject(one, violation.path)} cannot be "${typed}"${nearest ? `; did you mean "${nearest}"?` : '.'}`,
    nearest ?? (values.length > 0 ? oneOf([...values, ...(note?.examples ?? [])]) : undefined),
    typed,
  );
}

function emptyField(one: Case): SchemaProblem {
  const forms = describeField(one.schema, one.violation.path)?.forms ?? [];
  const place = placeAt(one.root, one.violation.path);
  const list = place.value?.kind === 'seq' || (place.value?.kind === 'map' && forms.includes('fields'));
  return problem(one, `${subject(one, one.violation.path)} ${list ? 'names nothing' : 'is empty'}.`);
}

/** A problem at the value: on the value where it is one word, on its key where it is long. */
function problem(one: Case, message: string, expected?: string, actual?: string): SchemaProblem {
  const place = placeAt(one.root, one.violation.path);
  const right = expected ?? describeField(one.schema, one.violation.path)?.description;
  return {
    span: spanOf(place) ?? one.fallback,
    message,
    ...(actual === undefined ? {} : { actual }),
    ...(right ? { expected: right } : {}),
    path: pathText(one.violation.path),
  };
}

function spanOf({ key, value }: Place): SchemaProblem['span'] | undefined {
  const empty = value === undefined || value.span.end <= value.span.start;
  return value?.kind === 'scalar' && !empty ? value.span : (key?.span ?? value?.span);
}

/** What a path leads to, as people call it: `the energy source "supply"`, `"kind" of the energy source "supply"`, `the front matter`. */
function subject(one: Case, path: FieldPath, capital = true): string {
  const text = subjectOf(one, path);
  return capital ? text.charAt(0).toUpperCase() + text.slice(1) : text;
}

function subjectOf(one: Case, path: FieldPath): string {
  const { schema, root } = one;
  const last = path[path.length - 1];
  const note = describeField(schema, path);
  if (last === undefined) return `the ${note?.title ?? 'file'}`;
  const above = path.slice(0, -1);
  const typed = typeof last === 'string' ? (placeAt(root, path).key?.text ?? last) : undefined;
  if (typed === undefined) return `item ${Number(last) + 1} of ${subjectOf(one, above)}`;
  const holder = describeField(schema, above);
  const named = holder?.open && !holder.fields.includes(String(last));
  if (named && note?.forms.includes('fields')) return `the ${note.title || 'entry'} "${typed}"`;
  return above.length === 0 ? `"${typed}"` : `"${typed}" of ${subjectOf(one, above)}`;
}
