/** What goes with the reader from sentence to sentence of one prose: what "it" stands for, what was asked, which orders were begun. */
import type { Prose } from '../../format/index.ts';
import type { Thing } from '../../registers/index.ts';
import type { Action, ActionKind, Condition, Sentence, ThingUse } from '../action.ts';
import type { ReadingContext } from '../context.ts';
import { type Equipment, equipmentOf } from '../equipment.ts';
import type { Item } from '../items.ts';
import type { Tables } from '../tables.ts';

export interface Reader {
  readonly prose: Prose;
  readonly context: ReadingContext;
  readonly tables: Tables;
  readonly equipment: Equipment;
  it: Thing | undefined;
  /** Points that the last sentence moved, where it named nothing else: "both", "them". What they may stand for in the next step. */
  them: readonly Thing[];
  lastRow: readonly Condition[];
  /** Where the orders begin that were read, whatever came of them. */
  readonly begun: Set<number>;
  /** "Is the gap over 0.6 mm? Then ...": the question is the next sentence's condition. */
  asked: Condition | undefined;
}

export function newReader(prose: Prose, context: ReadingContext, tables: Tables): Reader {
  return {
    prose,
    context,
    tables,
    equipment: equipmentOf(context.families, context.registers, tables),
    it: context.carry,
    them: context.carryAll ?? [],
    lastRow: [],
    begun: new Set(),
    asked: undefined,
  };
}

export function wordsOf(reader: Reader, items: readonly Item[]): string {
  const first = items[0];
  const last = items[items.length - 1];
  return first && last ? reader.prose.text.slice(first.at, last.end) : '';
}

export function unread(base: Omit<Sentence, 'status'>, why: string): Sentence {
  return { ...base, status: 'unread', why };
}

/** "it" goes on standing for the last thing handled, unless another candidate was named and it is a point (rule 20). */
export function remember(reader: Reader, sentence: Sentence, mentions: readonly ThingUse[]): void {
  const last = sentence.actions.at(-1)?.things.at(-1)?.thing ?? (mentions.length === 1 ? mentions[0]?.thing : undefined);
  const candidates = new Set(
    mentions.filter((use) => !['tool', 'consumable', 'model', 'option', 'role'].includes(use.thing.kind)).map((use) => use.thing.name),
  );
  const moved = sentence.actions.flatMap(({ things }) => things).flatMap(({ thing }) => (thing.kind === 'point' ? [thing] : []));
  const all = [...new Map(moved.map((thing) => [thing.name, thing])).values()];
  if (candidates.size > 0) reader.them = all.length === candidates.size ? all : [];
  if (last === undefined) {
    if (candidates.size > 0) reader.it = undefined;
  } else reader.it = last.kind === 'point' && candidates.size > 1 ? undefined : last;
}

export function bare(kind: ActionKind, at: number, end: number): Action {
  return { kind, things: [], with: [], contact: false, outside: false, amounts: [], when: [], at, end };
}
