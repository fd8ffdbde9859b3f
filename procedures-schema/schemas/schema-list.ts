/** The JSON Schemas of library files, by name, as data: for hover, completion and messages. Checking is done by the compiled ones. */
import checklist from './checklist.schema.json' with { type: 'json' };
import consumables from './consumables.schema.json' with { type: 'json' };
import documents from './documents.schema.json' with { type: 'json' };
import equipment from './equipment.schema.json' with { type: 'json' };
import guide from './guide.schema.json' with { type: 'json' };
import library from './library.schema.json' with { type: 'json' };
import notices from './notices.schema.json' with { type: 'json' };
import parts from './parts.schema.json' with { type: 'json' };
import procedure from './procedure.schema.json' with { type: 'json' };
import symptoms from './symptoms.schema.json' with { type: 'json' };
import tools from './tools.schema.json' with { type: 'json' };

/** The parts of JSON Schema that our schemas use. */
export interface Schema {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, Schema>>;
  readonly title?: string;
  readonly description?: string;
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly examples?: readonly unknown[];
  readonly required?: readonly string[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: boolean | Schema;
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly if?: Schema;
  readonly then?: Schema;
  readonly else?: Schema;
}

const LIST = { checklist, consumables, documents, equipment, guide, library, notices, parts, procedure, symptoms, tools };

export type SchemaName = keyof typeof LIST;

export const SCHEMAS: Readonly<Record<SchemaName, Schema>> = LIST as Readonly<Record<SchemaName, Schema>>;
