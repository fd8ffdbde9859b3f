/** The conditions of a sentence, from its clauses and from what stands at its head. */
import type { Action, Condition, ThingUse } from '../action.ts';
import type { FoundCondition } from '../clauses.ts';
import { readCondition } from '../conditions.ts';
import { type Item, isTime } from '../items.ts';
import type { Tables } from '../tables.ts';
import { type Reader, wordsOf } from './reader.ts';

/** Trailing conditions have no heads, and a question before counts once. */
export const NO_HEADS: readonly (readonly Item[])[] = [];

export function conditionsOf(
  reader: Reader,
  found: readonly FoundCondition[],
  heads: readonly (readonly Item[])[],
  text: string,
): { when: readonly Condition[]; tools: readonly ThingUse[]; outside: boolean } | undefined {
  const when: Condition[] = reader.asked && heads !== NO_HEADS ? [reader.asked] : [];
  const tools: ThingUse[] = [];
  let outside = false;
  for (const { kind, items } of found) {
    const said = wordsOf(reader, items);
    // "Does it leak? If so, renew it": the question stands among them already.
    if (kind === 'if' && reader.asked && /^so$/i.test(said)) continue;
    if (kind === 'if' || kind === 'unless') when.push(readCondition(items, said, reader.context, reader.tables, kind === 'unless'));
    else if (kind === 'when') {
      // "Where an option is fitted" chooses; "when the drum stands still" waits for what comes anyway.
      const condition = readCondition(items, said, reader.context, reader.tables);
      if (condition.kind === 'variant' || condition.kind === 'outcome') when.push(condition);
    }
  }
  for (const head of heads) {
    const named = head.flatMap((item) =>
      item.kind === 'name' ? item.things.slice(0, 1).map((thing) => ({ thing, at: item.at, end: item.end })) : [],
    );
    if (head[0]?.kind === 'amount') {
      const said = wordsOf(reader, head);
      const judged = /^(?:under|over|above|below|more than|less than|from|up to)\b/i.test(said) && !isTime(head[0].unit);
      when.push(
        judged ? (atLimit(reader, said) ?? readCondition(head, said, reader.context, reader.tables)) : { kind: 'unread', text: said },
      );
    } else if (named.some((use) => use.thing.kind === 'model' || use.thing.kind === 'option'))
      when.push(readCondition(head, wordsOf(reader, head), reader.context, reader.tables));
    else if (/serial/i.test(wordsOf(reader, head))) when.push(readCondition(head, wordsOf(reader, head), reader.context, reader.tables));
    else {
      const lead = head[0]?.kind === 'word' ? head[0].word : '';
      if (reader.tables.lexicon.instrument.includes(lead))
        tools.push(...named.filter((use) => use.thing.kind === 'tool' || use.thing.kind === 'consumable'));
      if (reader.tables.lexicon.outside.some((words) => wordsOf(reader, head).toLowerCase().startsWith(words))) outside = true;
      const limited =
        head.some((item) => item.kind === 'word' && reader.tables.sets.limitNouns.has(item.word)) ||
        named.some((use) => use.thing.kind === 'measurement');
      if (limited && ['within', 'over', 'under', 'above', 'below', 'outside'].includes(lead))
        when.push(readCondition(head, wordsOf(reader, head), reader.context, reader.tables));
    }
  }
  if (heads !== NO_HEADS && /^\s*otherwise\b/i.test(text) && reader.lastRow.length > 0)
    when.push({
      kind: 'fact',
      key: `otherwise: ${reader.lastRow.map((one) => one.text).join(' and ')}`,
      negated: false,
      text: 'otherwise',
    });
  return when.some((one) => one.kind === 'unread') ? undefined : { when, tools, outside };
}

/** "Under 3 mm", where 3 mm is the lower limit of what was measured just now: the outcome. Any other figure is a question of its own. */
function atLimit(reader: Reader, said: string): Condition | undefined {
  const about = reader.it?.kind === 'measurement' ? reader.context.measurements.find(({ name }) => name === reader.it?.name) : undefined;
  const [, side = '', figure = ''] = /^(under|below|less than|over|above|more than)\s+(.+)$/i.exec(said) ?? [];
  const plain = (text: string | undefined): string => (text ?? '').replace(/\s+/g, '').toLowerCase();
  if (about === undefined || about.perModel.length > 0 || figure === '') return undefined;
  const under = /^(?:under|below|less)/i.test(side);
  if (plain(under ? about.lower : about.upper) !== plain(figure)) return undefined;
  return { kind: 'outcome', outcome: under ? 'under' : 'over', subject: about.name, text: said };
}

/** "Shut the gate if it is open": in a sentence that names one thing, "it" is that thing, and its state decides. */
export function ownState(condition: Condition, action: Action, tables: Tables): Condition {
  const [use] = action.things;
  if (condition.kind !== 'fact' || action.things.length !== 1 || use === undefined) return condition;
  if (!['point', 'cover', 'part', 'control', 'fastener'].includes(use.thing.kind)) return condition;
  const said = /^(?:it|they) (?:is|are|stands?) (?:still |already )?([a-z]+)$/.exec(condition.key)?.[1];
  const state = said === undefined ? undefined : tables.positions.get(said);
  return state === undefined ? condition : { kind: 'state', thing: use.thing, state, negated: condition.negated, text: condition.text };
}
