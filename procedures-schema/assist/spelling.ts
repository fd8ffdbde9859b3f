/** What a spell-check is to look at, and which words of the library it is to know. The dictionary and the judging are the page's. */
import { eachProse, type LibraryFacts, type ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { type Prose, proseSpan } from '../format/index.ts';
import { findQuantities, UNITS } from '../quantities/index.ts';
import { english } from '../reading/index.ts';
import type { Registers } from '../registers/index.ts';
import { plural, singular } from './written-form.ts';

export interface SpellableWord {
  readonly word: string;
  readonly span: Span;
}

const WORD = /\p{L}[\p{L}\p{M}]*(?:['’]\p{L}+)*/gu;

/** Words of running text: no code, references, ids, quantities, numbers, abbreviations or words with digits in them. */
export function spellable(facts: ProcedureFacts): readonly SpellableWord[] {
  const { tree, source } = facts;
  const out: SpellableWord[] = [];
  const blocks = [...tree.preface, ...tree.sections.flatMap((section) => section.blocks)];
  for (const prose of eachProse(blocks)) out.push(...proseWords(prose));
  for (const { title, titleSpan } of tree.sections)
    if (source.text.slice(titleSpan.start, titleSpan.end) === title) out.push(...wordsIn(title, titleSpan.start, []));
  const { title, titleSpan } = facts.head;
  const at = source.text.slice(titleSpan.start, titleSpan.end).indexOf(title);
  if (title !== '' && at !== -1) out.push(...wordsIn(title, titleSpan.start + at, []));
  return out.sort((a, b) => a.span.start - b.span.start);
}

function proseWords(prose: Prose): readonly SpellableWord[] {
  const skip = [
    ...prose.marks.filter(({ kind }) => kind === 'reference' || kind === 'code'),
    ...findQuantities(prose.text).map(({ at, end, second }) => ({ at, end: second?.end ?? end })),
  ];
  return wordsIn(prose.text, 0, skip).map(({ word, span }) => ({ word, span: proseSpan(prose, span.start, span.end) }));
}

function wordsIn(text: string, from: number, skip: readonly { readonly at: number; readonly end: number }[]): SpellableWord[] {
  const out: SpellableWord[] = [];
  for (const found of text.matchAll(WORD)) {
    const [word] = found;
    const [start, end] = [found.index, found.index + word.length];
    // "EF-315", "OM-4110", "x2", "a/c", addresses: part of a code, not of a sentence.
    const touches = /[\d_/\\@]/.test(text[start - 1] ?? '') || /[\d_/\\@]/.test(text[end] ?? '') || /^-\d/.test(text.slice(end, end + 2));
    if (touches || word.length < 2 || /^\p{Lu}{2,}s?$/u.test(word)) continue;
    if (skip.some(({ at, end: stop }) => start < stop && at < end)) continue;
    out.push({ word, span: { start: from + start, end: from + end } });
  }
  return out;
}

/** Words that the library's own registers, units and verbs use, in small letters where the register has them so; sorted, each once. */
export function spellingWords({ registers, procedures }: LibraryFacts): readonly string[] {
  const words = new Set<string>();
  const add = (text: string): void => {
    for (const [word] of text.matchAll(WORD)) if (word.length > 1) words.add(word);
  };
  for (const name of namesOf(registers))
    for (const [word] of name.matchAll(WORD)) {
      add(word);
      add(plural(word));
      add(singular(word));
    }
  for (const { head } of procedures) for (const { name } of [...head.measurements, ...head.roles]) add(name);
  for (const { symbol } of UNITS) add(symbol);
  for (const [base, verb] of Object.entries(english.verbs)) add(`${base} ${verb.forms}`);
  add(Object.keys(english.nouns).join(' '));
  add(registers.house.publisher);
  return [...words].sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
}

function namesOf(registers: Registers): readonly string[] {
  const { families, models, options, tools, consumables, replacements, documents, symptoms } = registers;
  const things = families.flatMap((family) =>
    [family.sources, family.points, family.controls, family.covers, family.zones, family.parts, family.fasteners, family.gauges].flat(),
  );
  const named = [...families, ...things, ...models, ...options, ...tools, ...consumables, ...replacements, ...symptoms];
  return [
    ...named.flatMap(({ name, aliases }) => [name, ...(aliases ?? [])]),
    ...documents.flatMap(({ title, aliases }) => [title, ...aliases]),
  ];
}
