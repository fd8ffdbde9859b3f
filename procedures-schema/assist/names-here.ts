/** Every name that a procedure may use in brackets, with what it is: its families' equipment, its own front matter, the library's registers. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { Family, Registers, Thing, ThingKind } from '../registers/index.ts';
import { familiesOf } from '../registers/index.ts';
import { KIND_WORDS, thingLines } from './thing-words.ts';

export interface NameHere {
  readonly thing: Thing;
  readonly spellings: readonly string[];
  /** One line: what it is. */
  readonly detail: string;
  readonly note: string;
}

/** The families of a procedure; of a file that has none yet, all of them. */
export function familiesHere(library: LibraryFacts, facts: ProcedureFacts | undefined): readonly Family[] {
  const own = facts ? familiesOf(facts.head, library.registers) : [];
  return own.length > 0 ? own : library.registers.families;
}

export function namesHere(library: LibraryFacts, facts: ProcedureFacts | undefined): readonly NameHere[] {
  const { registers } = library;
  return [
    ...ownNames(facts),
    ...familiesHere(library, facts).flatMap((family) => familyNames(family, registers)),
    ...libraryNames(registers),
  ];
}

function nameHere(thing: Thing, aliases: readonly string[], registers: Registers): NameHere {
  const [first = KIND_WORDS[thing.kind], ...rest] = thingLines(thing, registers);
  return { thing, spellings: [thing.name, ...aliases], detail: first.replace(/\.$/, ''), note: rest.join('\n') };
}

function ownNames(facts: ProcedureFacts | undefined): readonly NameHere[] {
  if (!facts) return [];
  const { measurements, roles } = facts.head;
  return [
    ...measurements.map(({ name, quantity, at, with: tool }) => ({
      thing: { kind: 'measurement' as const, name },
      spellings: [name],
      detail: `Measurement: ${quantity}`,
      note: [at, tool === undefined ? undefined : `with the ${tool}`].filter((line) => line !== undefined).join('\n'),
    })),
    ...roles.map(({ name }) => ({ thing: { kind: 'role' as const, name }, spellings: [name], detail: 'Role', note: '' })),
  ];
}

const LISTS = [
  ['point', 'points'],
  ['control', 'controls'],
  ['cover', 'covers'],
  ['part', 'parts'],
  ['fastener', 'fasteners'],
  ['gauge', 'gauges'],
  ['source', 'sources'],
  ['zone', 'zones'],
] as const satisfies readonly (readonly [ThingKind, keyof Family])[];

/** Made once a family and a library: a register edit makes new values. */
const FAMILY = new WeakMap<Family, readonly NameHere[]>();
const LIBRARY = new WeakMap<Registers, readonly NameHere[]>();

function familyNames(family: Family, registers: Registers): readonly NameHere[] {
  const known = FAMILY.get(family);
  if (known) return known;
  const made = LISTS.flatMap(([kind, list]) =>
    family[list].map(({ name, aliases }) => nameHere({ kind, name, family: family.name }, aliases, registers)),
  );
  FAMILY.set(family, made);
  return made;
}

function libraryNames(registers: Registers): readonly NameHere[] {
  const known = LIBRARY.get(registers);
  if (known) return known;
  const of = (kind: ThingKind, list: readonly { readonly name: string; readonly aliases?: readonly string[] }[]) =>
    list.map(({ name, aliases }) => nameHere({ kind, name }, aliases ?? [], registers));
  const made = [
    ...of('tool', registers.tools),
    ...of('consumable', registers.consumables),
    ...of('replacement', registers.replacements),
    ...of('option', registers.options),
    ...of('model', registers.models),
    ...of(
      'document',
      registers.documents.map(({ number, aliases }) => ({ name: number, aliases })),
    ),
  ];
  LIBRARY.set(registers, made);
  return made;
}
