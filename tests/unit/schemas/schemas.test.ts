/**
 * The JSON Schemas themselves: complete for hover and completion, valid by the standard, compiled to code that loads nothing.
 * Source: JSON Schema 2020-12 (json-schema.org/draft/2020-12) by the package's own meta-schema; the project's rule that every field has
 * words for people.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv2020 from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { describeField, SCHEMAS, type Schema, type SchemaName } from '../../../procedures-schema/schemas/index.ts';

const folder = join(import.meta.dirname, '../../../procedures-schema/schemas');
const names = Object.keys(SCHEMAS) as SchemaName[];

test('every schema file is listed, and every listed one is a file', () => {
  const files = readdirSync(folder).filter((file) => file.endsWith('.schema.json'));
  expect(files.map((file) => file.replace('.schema.json', '')).sort()).toEqual([...names].sort());
});

describe.each(names)('%s', (name) => {
  const schema = SCHEMAS[name];

  test('is valid by the meta-schema of 2020-12', () => {
    const ajv = new Ajv2020();
    expect(ajv.validateSchema(schema), ajv.errorsText()).toBe(true);
    expect((schema as { $schema?: string }).$schema).toBe('https://json-schema.org/draft/2020-12/schema');
  });

  test('every field has a title and says what it is for', () => {
    const silent: string[] = [];
    const visit = (at: Schema, path: string): void => {
      for (const [key, field] of Object.entries(at.properties ?? {})) {
        const target = field.$ref ? { ...schema.$defs?.[field.$ref.replace('#/$defs/', '')], ...field } : field;
        const word = 'const' in field && key === 'kind'; // the word that tells one form from another
        if (!word && path !== '/if' && (!target.title || !target.description)) silent.push(`${path}/${key}`);
        visit(field, `${path}/${key}`);
      }
      for (const key of ['then', 'else', 'items'] as const) if (at[key]) visit(at[key], `${path}/${key}`);
      if (typeof at.additionalProperties === 'object') visit(at.additionalProperties, `${path}/*`);
    };
    visit(schema, '');
    for (const [key, def] of Object.entries(schema.$defs ?? {})) visit(def, key);
    expect(silent).toEqual([]);
  });

  test('no field is taken that is not described', () => {
    const open: string[] = [];
    const visit = (at: Schema, path: string): void => {
      if (at.properties && at.additionalProperties === undefined && path !== '/if') open.push(path);
      for (const [key, field] of Object.entries(at.properties ?? {})) visit(field, `${path}/${key}`);
      for (const key of ['then', 'else', 'items'] as const) if (at[key]) visit(at[key], `${path}/${key}`);
      if (typeof at.additionalProperties === 'object') visit(at.additionalProperties, `${path}/*`);
    };
    visit(schema, '');
    for (const [key, def] of Object.entries(schema.$defs ?? {})) visit(def, key);
    expect(open).toEqual([]);
  });
});

test('the compiled module loads nothing and compiles nothing', () => {
  const code = readFileSync(join(folder, 'generated', 'validators.mjs'), 'utf8');
  expect(code).not.toMatch(/^\s*import\s/m);
  expect(code).not.toMatch(/(?<!["'\w])import\s*\(/);
  expect(code).not.toMatch(/\bnew Function\b|\beval\(/);
});

describe('what is said of a field', () => {
  test('through references and conditions', () => {
    const note = describeField('equipment', ['families', 'any', 'energy', 'any']);
    expect(note).toMatchObject({ title: 'energy source', open: false, forms: ['fields'], required: ['kind', 'size'] });
    expect(note?.fields).toContain('isolate');
    expect(note?.fields).toContain('none because');
  });
  test('a set of words', () => {
    expect(describeField('library', ['paper'])).toMatchObject({ values: ['a4', 'letter', 'a5'], forms: ['text'] });
  });
  test('items of a list, names of the writer, limits of a model', () => {
    expect(describeField('symptoms', ['symptoms', 'noise', 'procedures', 0])?.fields).toEqual(['do', 'models', 'options']);
    expect(describeField('tools', ['tools'])).toMatchObject({ open: true, fields: [] });
    expect(describeField('procedure', ['measurements', 'gap', 'limits', 'K-1', 'lower'])?.title).toBe('lower');
  });
  test('nothing, where there is no such field', () => {
    expect(describeField('library', ['colour'])).toBeUndefined();
    expect(describeField('library', ['constructor'])).toBeUndefined();
    expect(describeField('library', ['paper', 'a4'])).toBeUndefined();
  });
});
