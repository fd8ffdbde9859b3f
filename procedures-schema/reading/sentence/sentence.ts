/** A stretch of text to a sentence with its actions; what is too long, asked or said outright is set apart first. */
import type { Action, Sentence, ThingUse } from '../action.ts';
import { readCondition } from '../conditions.ts';
import { itemsOf } from '../items.ts';
import { readOverride } from './override.ts';
import { type Reader, remember, wordsOf } from './reader.ts';
import { fragmentOf, hangOn, inFull, verbsFirst, withoutLabel } from './said-short.ts';
import { besides, whole } from './understand.ts';

/** Characters. No order that people can follow is longer; what is, takes the reader longer than it is worth. */
const LONGEST = 2_000;

export function readSentence(reader: Reader, at: number, end: number): Sentence {
  const { tables } = reader;
  const text = reader.prose.text.slice(at, end);
  if (end - at > LONGEST) {
    const few = itemsOf(reader.prose, at, at + LONGEST, reader.context).flatMap((item) =>
      item.kind === 'name' && item.things[0] ? [{ thing: item.things[0], at: item.at, end: item.end }] : [],
    );
    return {
      text: text.slice(0, 200),
      at,
      end,
      actions: [],
      unknown: [],
      ambiguous: [],
      mentions: few,
      status: 'unread',
      why: `a sentence of ${end - at} characters is too long to be read`,
    };
  }
  const items = inFull(reader, verbsFirst(reader, itemsOf(reader.prose, at, end, reader.context)), at);
  const named = items.flatMap((item) => (item.kind === 'name' ? [item] : []));
  const mentions: ThingUse[] = named.flatMap((item) => (item.things[0] ? [{ thing: item.things[0], at: item.at, end: item.end }] : []));
  const base = {
    text,
    at,
    end,
    actions: [] as readonly Action[],
    unknown: [] as Sentence['unknown'],
    ambiguous: [] as Sentence['ambiguous'],
    mentions,
  };
  const override = reader.context.override;
  if (override && at === 0) return { ...base, ...readOverride(reader, override, mentions), override };
  const be = items[0]?.kind === 'word' && (tables.sets.be.has(items[0].word) || ['does', 'do', 'has', 'have'].includes(items[0].word));
  if (be && text.endsWith('?')) {
    reader.asked = readCondition(items.slice(1, -1), wordsOf(reader, items.slice(1, -1)), reader.context, tables);
    const question: Sentence = { ...base, status: 'remark' };
    remember(reader, question, mentions);
    return question;
  }
  const hung = reader.context.kind === 'bullet' && at === 0 ? reader.context.lead?.sentences.at(-1)?.hanging : undefined;
  const fragment = fragmentOf(text, at, tables.lexicon);
  if (fragment) return { ...base, status: 'read', actions: fragment };
  const sentence = besides(
    reader,
    items,
    whole(reader, hung ? hangOn(reader, hung, items) : withoutLabel(reader, items), text, base),
    base,
  );
  reader.asked = undefined;
  remember(reader, sentence, mentions);
  return sentence;
}
