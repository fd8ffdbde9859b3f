/** Prose to sentences with their actions, and what the next step may take up of them. */
import type { Prose } from '../format/index.ts';
import type { Reading, Sentence } from './action.ts';
import { readCondition } from './conditions.ts';
import type { ReadingContext } from './context.ts';
import { itemsOf } from './items.ts';
import { english } from './lexicon/en/english.ts';
import { newReader } from './sentence/reader.ts';
import { readSentence } from './sentence/sentence.ts';
import { sentencesOf } from './sentences.ts';
import { type Tables, tablesOf } from './tables.ts';

const TABLES: Readonly<Record<ReadingContext['language'], Tables>> = { en: tablesOf(english) };

/** Part of every cache key: changes when the same words may read otherwise. */
export const readingVersion: string = 'en-13';

export function readProse(prose: Prose, context: ReadingContext): Reading {
  const tables = TABLES[context.language];
  if (context.kind === 'condition') {
    const items = itemsOf(prose, 0, prose.text.length, context);
    const when = prose.text.trim() === '' ? [] : [readCondition(items, prose.text.trim(), context, tables)];
    return {
      sentences: [],
      when,
      ...(context.carry ? { carry: context.carry } : {}),
      ...(context.carryAll ? { carryAll: context.carryAll } : {}),
    };
  }
  const reader = newReader(prose, context, tables);
  const read = sentencesOf(prose, tables).map(({ at, end }) => readSentence(reader, at, end));
  const sentences = shownBehind(triedOut(read, tables), tables);
  // Points that were moved last, where nothing else was named since, are what "both" may stand for in the next step.
  const { it: carry, them: carryAll } = reader;
  return { sentences, ...(carry ? { carry } : {}), ...(carryAll.length > 1 ? { carryAll } : {}) };
}

/** "Press the button. Nothing may turn.": what is said next makes of the pressing a try-out, as it does within one sentence. */
function triedOut(sentences: readonly Sentence[], tables: Tables): readonly Sentence[] {
  return sentences.map((sentence, index) => {
    const said = sentences[index + 1];
    const last = sentence.actions.at(-1);
    const selects = last?.kind === 'control' && last.position !== undefined;
    if ((last?.kind !== 'start' && !selects) || !said || said.actions.length > 0 || !tables.lexicon.sayings.staysStill.test(said.text))
      return sentence;
    // A selector that is tried stays where it was put.
    if (selects) return { ...sentence, actions: [...sentence.actions, { ...last, kind: 'try-out', result: said.text }] };
    return { ...sentence, actions: [...sentence.actions.slice(0, -1), { ...last, kind: 'try-out', result: said.text }] };
  });
}

/** "Read the gauge. It must show 0 bar.", "look at the mark, which must show green": what it must show is said behind. */
function shownBehind(sentences: readonly Sentence[], tables: Tables): readonly Sentence[] {
  const { itMustShow, whichMustShow } = tables.lexicon.sayings;
  return sentences.map((sentence, index) => {
    const last = sentence.actions.at(-1);
    if (last === undefined || last.result !== undefined || !['observe', 'measure'].includes(last.kind)) return sentence;
    if (last.things.some(({ thing }) => thing.kind === 'measurement')) return sentence;
    const next = sentences[index + 1];
    const behind = next?.actions.length === 0 && next.status === 'confirmation' && itMustShow.test(next.text) ? next.text : undefined;
    const result = whichMustShow.exec(sentence.text)?.[0] ?? behind;
    if (result === undefined) return sentence;
    const kind = last.kind === 'observe' ? 'prove' : last.kind;
    return { ...sentence, actions: [...sentence.actions.slice(0, -1), { ...last, kind, result }] };
  });
}
