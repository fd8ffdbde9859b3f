/** Runs the compiled validators and gives what they object to as plain data. Words nothing: registers/ does that for people. */
import {
  checklist,
  consumables,
  documents,
  equipment,
  guide,
  library,
  notices,
  parts,
  procedure,
  symptoms,
  tools,
} from './generated/validators.mjs';
import type { SchemaName } from './schema-list.ts';

/** A function as the compiler of JSON Schemas writes it. */
export interface Validate {
  (data: unknown): boolean;
  errors?: null | readonly RawError[];
}
interface RawError {
  readonly instancePath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
}

/** One objection. `path` leads to the value in the data that was judged. */
export interface Violation {
  readonly path: readonly (string | number)[];
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
}

const COMPILED: Readonly<Record<SchemaName, Validate>> = {
  checklist,
  consumables,
  documents,
  equipment,
  guide,
  library,
  notices,
  parts,
  procedure,
  symptoms,
  tools,
};

/** More than anyone reads at once; a file of the wrong kind would give one for each line. */
const MOST = 200;

export function violationsOf(name: SchemaName, data: unknown): readonly Violation[] {
  const validate = COMPILED[name];
  if (validate(data)) return [];
  return (validate.errors ?? [])
    .filter(({ keyword }) => keyword !== 'if' && keyword !== 'anyOf') // said again by what the branches ask
    .slice(0, MOST)
    .map(({ instancePath, keyword, params }) => ({ path: pathOf(instancePath, data), keyword, params }));
}

/** A JSON pointer as keys; digits are an index only where a list stands. */
function pathOf(pointer: string, data: unknown): readonly (string | number)[] {
  const out: (string | number)[] = [];
  let at: unknown = data;
  for (const part of pointer.split('/').slice(1)) {
    const key = part.replace(/~1/g, '/').replace(/~0/g, '~');
    const step = Array.isArray(at) ? Number(key) : key;
    out.push(step);
    at = at === null || typeof at !== 'object' ? undefined : (at as Record<string | number, unknown>)[step];
  }
  return out;
}
