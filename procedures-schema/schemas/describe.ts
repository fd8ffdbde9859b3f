/** What the schemas say of one field, found by its path: title, description, the fields below it. For messages, hover and completion. */
import { SCHEMAS, type Schema, type SchemaName } from './schema-list.ts';

export interface FieldNote {
  readonly title: string;
  readonly description: string;
  /** Names of the fields below it that are fixed. */
  readonly fields: readonly string[];
  /** Takes names of the writer's own, each with a value: families, tools. */
  readonly open: boolean;
  /** Values it may have, where they are a set of words. */
  readonly values: readonly string[];
  readonly examples: readonly string[];
  /** text, list, fields */
  readonly forms: readonly Form[];
  readonly required: readonly string[];
}
export type Form = 'text' | 'list' | 'fields';

const FORMS: Readonly<Record<string, Form>> = { string: 'text', array: 'list', object: 'fields' };

/** Undefined where the schema knows no such field. */
export function describeField(name: SchemaName, path: readonly (string | number)[]): FieldNote | undefined {
  const root = SCHEMAS[name];
  let at = spread(root, root);
  for (const step of path) {
    at = at.flatMap((schema) => below(schema, step)).flatMap((schema) => spread(schema, root));
    if (at.length === 0) return undefined;
  }
  return {
    title: at.find((schema) => schema.title !== undefined)?.title ?? '',
    description: at.find((schema) => schema.description !== undefined)?.description ?? '',
    fields: unique(at.flatMap((schema) => Object.keys(schema.properties ?? {}))),
    open: at.some((schema) => typeof schema.additionalProperties === 'object'),
    values: unique(at.flatMap((schema) => schema.enum ?? []).map(String)),
    examples: unique(at.flatMap((schema) => schema.examples ?? []).map(String)),
    forms: formsOf(at),
    required: unique(at.flatMap((schema) => schema.required ?? [])),
  };
}

/** The schema itself, what it refers to, its choices, and both branches of its condition: all that may speak for one value. */
function spread(schema: Schema, root: Schema): Schema[] {
  const more = [...(schema.anyOf ?? []), schema.then, schema.else].filter((branch) => branch !== undefined);
  const referred = schema.$ref === undefined ? undefined : root.$defs?.[schema.$ref.replace('#/$defs/', '')];
  return [schema, ...[...(referred ? [referred] : []), ...more].flatMap((one) => spread(one, root))];
}

function below(schema: Schema, step: string | number): Schema[] {
  if (typeof step === 'number') return schema.items ? [schema.items] : [];
  const own = Object.hasOwn(schema.properties ?? {}, step) ? schema.properties?.[step] : undefined;
  if (own) return [own];
  return typeof schema.additionalProperties === 'object' ? [schema.additionalProperties] : [];
}

function formsOf(schemas: readonly Schema[]): Form[] {
  const types = unique(schemas.flatMap((schema) => schema.type ?? []));
  const forms = types.flatMap((type) => FORMS[type] ?? []);
  return forms.length > 0 ? forms : schemas.some((schema) => schema.enum !== undefined) ? ['text'] : [];
}

function unique<T>(list: readonly T[]): T[] {
  return [...new Set(list)];
}
