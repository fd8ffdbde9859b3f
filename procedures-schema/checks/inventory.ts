/** What a procedure lists and what its steps use, for tools, consumables and parts alike. Words nothing. */
import type { Span } from '../finding.ts';
import { proseSpan } from '../format/index.ts';
import type { ListedName, ThingKind } from '../registers/index.ts';
import type { ProcedureFacts } from './check.ts';
import { allProseOf, eachSentence } from './visit.ts';

export interface Inventory {
  readonly kind: ThingKind;
  readonly listed: readonly ListedName[];
  /** Registered names that steps and notices mention, with the first place. */
  readonly used: ReadonlyMap<string, Span>;
}

/** Registered name of a listed one: an alias in the list counts as its name. */
export function registeredName(facts: ProcedureFacts, kind: ThingKind, name: string): string {
  return facts.names.lookup(name).find((thing) => thing.kind === kind)?.name ?? name;
}

export function inventoryOf(facts: ProcedureFacts, kind: 'tool' | 'consumable' | 'replacement'): Inventory {
  const own = KNOWN.get(facts.read) ?? new Map<string, Inventory>();
  KNOWN.set(facts.read, own);
  const made = own.get(kind) ?? make(facts, kind);
  own.set(kind, made);
  return made;
}

/** Two checks a kind ask the same question of the same facts. */
const KNOWN = new WeakMap<ProcedureFacts['read'], Map<string, Inventory>>();

function make(facts: ProcedureFacts, kind: 'tool' | 'consumable' | 'replacement'): Inventory {
  const listed = {
    tool: [...facts.head.tools, ...facts.head.protection],
    consumable: facts.head.consumables,
    replacement: facts.head.parts,
  }[kind].filter((entry) => entry.name !== 'none');
  const used = new Map<string, Span>();
  const add = (name: string, span: Span): void => {
    if (!used.has(name)) used.set(name, span);
  };
  for (const { sentence, prose } of eachSentence(facts.read)) {
    for (const mention of sentence.mentions)
      if (mention.thing.kind === kind) add(mention.thing.name, proseSpan(prose, mention.at, mention.end));
    for (const action of sentence.actions)
      for (const use of [...action.with, ...action.things])
        if (use.thing.kind === kind) add(use.thing.name, proseSpan(prose, use.at, use.end));
  }
  // A bracket in a notice, a table or a prose section names it as well.
  for (const prose of allProseOf(facts.tree))
    for (const mark of prose.marks) {
      if (mark.kind !== 'reference' || mark.form.kind !== 'name') continue;
      const thing = facts.names.lookup(mark.form.name).find((found) => found.kind === kind);
      if (thing) add(thing.name, mark.span);
    }
  if (kind === 'tool')
    for (const measurement of facts.head.measurements)
      if (measurement.with) add(registeredName(facts, kind, measurement.with), measurement.span);
  return { kind, listed, used };
}
