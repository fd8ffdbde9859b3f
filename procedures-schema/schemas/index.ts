/** JSON Schemas of library files: what a field means, and what is wrong with a value. Exports only. */
export { describeField, type FieldNote, type Form } from './describe.ts';
export { SCHEMAS, type Schema, type SchemaName } from './schema-list.ts';
export { type Violation, violationsOf } from './validate.ts';
