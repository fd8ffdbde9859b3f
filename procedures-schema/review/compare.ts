/**
 * Two states of one procedure compared by what they mean to a technician: a step moved, a limit changed, a notice lost, a torque that the registers say
 * otherwise. Each was read with its own registers; which lines differ is somebody else's question.
 */
import { type Margin, type MarginLine, marginOf } from '../assist/index.ts';
import { eachBlock, type ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import type { Block } from '../format/index.ts';
import type { ListedName } from '../registers/model.ts';
import { type Changed, inWeight, type OneText } from './changed.ts';
import { registerChanges } from './compare-registers.ts';
import { limitCells } from './limit-cells.ts';
import { likeness, movedIn, pairUp } from './pair-up.ts';

export function compareTexts(earlier: OneText, later: OneText): readonly Changed[] {
  const found = [...steps(earlier, later), ...notices(earlier, later), ...limits(earlier, later), ...head(earlier, later)];
  const retold = earlier.facts.source.text !== later.facts.source.text;
  if (found.length > 0 && retold && earlier.facts.head.revision === later.facts.head.revision)
    found.push({
      kind: 'revision kept',
      weight: 'scope',
      about: 'revision',
      after: later.facts.head.revision ?? '',
      span: later.facts.head.idSpan,
    });
  // The text is the same where only a register changed, and so may its revision be.
  return inWeight([...found, ...registerChanges(earlier, later)]);
}

// ---------------------------------------------------------------- steps

const wordsOf = (line: MarginLine): string => line.readings.map(({ text }) => text).join(' ');
/** What it was read as; a sentence that was not understood stands for itself. */
const readAs = (line: MarginLine): string =>
  line.readings.map(({ words, text, status }) => (status === 'unread' || status === 'partly' ? text : words.join('; '))).join('; ');
const protects = (line: MarginLine): boolean => line.readings.some(({ earns }) => earns) || line.hands.length > 0;

function steps(earlier: OneText, later: OneText): Changed[] {
  const lines = ({ facts, library }: OneText): Margin['lines'] => marginOf(facts, library).lines;
  const [before, after] = [lines(earlier), lines(later)];
  const pairable = (line: MarginLine) => ({
    section: line.section,
    text: wordsOf(line),
    ...(line.id === undefined ? {} : { id: line.id }),
  });
  const pairs = pairUp(before.map(pairable), after.map(pairable));
  const moved = movedIn(pairs);
  const kept = new Set(pairs);
  const found: Changed[] = [];
  for (const [index, line] of after.entries()) {
    const was = before[pairs[index] ?? -1];
    const place = { about: line.fullLabel, span: line.span };
    const weight = protects(line) ? 'protection' : 'work';
    if (!was) {
      found.push({ kind: 'step added', weight, ...place, after: wordsOf(line) });
      continue;
    }
    // The same words may be read otherwise, by other registers.
    const tell = wordsOf(was) === wordsOf(line) ? readAs : wordsOf;
    const both = { ...place, before: tell(was), after: tell(line), earlierSpan: was.span };
    const grave = weight === 'protection' || protects(was) ? 'protection' : 'work';
    if (readAs(was) !== readAs(line)) found.push({ kind: 'step does otherwise', weight: grave, ...both });
    else if (wordsOf(was) !== wordsOf(line)) found.push({ kind: 'step reworded', weight: 'words', ...both });
    if (moved.has(index) || was.section !== line.section)
      found.push({ kind: 'step moved', weight: grave, ...both, before: was.fullLabel, after: line.fullLabel });
  }
  for (const [index, line] of before.entries())
    if (!kept.has(index))
      found.push({
        kind: 'step removed',
        weight: protects(line) ? 'protection' : 'work',
        about: line.fullLabel,
        before: wordsOf(line),
        earlierSpan: line.span,
      });
  return found;
}

// ---------------------------------------------------------------- notices

interface OneNotice {
  readonly word: string;
  readonly text: string;
  readonly span: Span;
}

const blocksOf = ({ tree }: ProcedureFacts): readonly Block[] => [...tree.preface, ...tree.sections.flatMap(({ blocks }) => blocks)];

/** With the words of the standing notice that it uses. */
function noticesOf({ facts, library }: OneText): OneNotice[] {
  return [...eachBlock(blocksOf(facts), 'notice')].map(({ word, blocks, span, attributes }) => {
    const use = attributes?.entries.find(({ key }) => key === 'use')?.value;
    const standing = use === undefined ? undefined : library.registers.notices.find(({ name }) => name === use)?.text;
    return { word, text: [standing ?? '', textOf(blocks)].filter((text) => text !== '').join(' '), span };
  });
}

const textOf = (blocks: readonly Block[]): string =>
  blocks
    .flatMap((block) =>
      block.kind === 'paragraph' ? [block.prose.text] : block.kind === 'bullets' ? block.items.map(({ prose }) => prose.text) : [],
    )
    .join(' ');

function notices(earlier: OneText, later: OneText): Changed[] {
  const before = noticesOf(earlier);
  const after = noticesOf(later);
  const found: Changed[] = [];
  const left = new Set(before);
  const open = after.filter((one) => {
    const same = [...left].find(({ word, text }) => word === one.word && text === one.text);
    if (same) left.delete(same);
    return !same;
  });
  const words = (text: string): Set<string> => new Set(text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []);
  for (const one of open) {
    const [near] = [...left]
      .map((other) => ({ other, share: likeness(words(other.text), words(one.text)) }))
      .filter(({ share }) => share >= 0.5)
      .sort((a, b) => b.share - a.share);
    const told = `${one.word.toUpperCase()}: ${one.text}`;
    if (!near) found.push({ kind: 'notice added', weight: 'protection', about: one.word, after: told, span: one.span });
    else {
      left.delete(near.other);
      const was = `${near.other.word.toUpperCase()}: ${near.other.text}`;
      found.push({
        kind: 'notice changed',
        weight: 'protection',
        about: one.word,
        before: was,
        after: told,
        span: one.span,
        earlierSpan: near.other.span,
      });
    }
  }
  for (const { word, text, span } of left)
    found.push({ kind: 'notice lost', weight: 'protection', about: word, before: `${word.toUpperCase()}: ${text}`, earlierSpan: span });
  return found;
}

// ---------------------------------------------------------------- limits

function limits(earlier: OneText, later: OneText): Changed[] {
  const keyOf = (one: { readonly measurement: string; readonly model: string }): string => `${one.measurement} on ${one.model}`;
  const before = new Map(limitCells(earlier.facts, earlier.library).map((one) => [keyOf(one), one]));
  const after = new Map(limitCells(later.facts, later.library).map((one) => [keyOf(one), one]));
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((about): Changed[] => {
    const [was, is] = [before.get(about), after.get(about)];
    if (was?.text === is?.text) return [];
    return [
      {
        kind: 'limit changed',
        weight: 'limits',
        about,
        ...(was?.text === undefined ? {} : { before: was.text, earlierSpan: was.span }),
        ...(is?.text === undefined ? {} : { after: is.text }),
        ...(is ? { span: is.span } : {}),
      },
    ];
  });
}

// ---------------------------------------------------------------- front matter

const LISTS = [
  ['models', 'scope'],
  ['options', 'scope'],
  ['symptoms', 'scope'],
  ['tools', 'work'],
  ['consumables', 'work'],
  ['parts', 'work'],
  ['protection', 'protection'],
  ['requires', 'scope'],
  ['roles', 'scope'],
] as const;
const VALUES = [
  ['title', 'words'],
  ['startsWith', 'protection'],
  ['endsWith', 'protection'],
  ['people', 'scope'],
  ['audience', 'scope'],
  ['time', 'scope'],
] as const;

function head(earlier: OneText, later: OneText): Changed[] {
  const [before, after] = [earlier.facts.head, later.facts.head];
  const found: Changed[] = [];
  for (const [about, weight] of LISTS) {
    const [was, is]: (readonly ListedName[])[] = [before[about], after[about]];
    for (const { name, span } of is ?? [])
      if (!was?.some((one) => one.name === name)) found.push({ kind: 'entry added', weight, about, after: name, span });
    for (const { name, span } of was ?? [])
      if (!is?.some((one) => one.name === name)) found.push({ kind: 'entry removed', weight, about, before: name, earlierSpan: span });
  }
  for (const [about, weight] of VALUES)
    if (before[about] !== after[about])
      found.push({ kind: 'value changed', weight, about, before: before[about] ?? '', after: after[about] ?? '', span: after.titleSpan });
  const [was, is] = [before.liveTask?.because, after.liveTask?.because];
  if (was !== is)
    found.push({
      kind: 'value changed',
      weight: 'protection',
      about: 'live task',
      before: was ?? '',
      after: is ?? '',
      span: after.liveTask?.span ?? after.titleSpan,
    });
  const verdict = (text: OneText, name: string) => text.facts.flow.verdicts.find(({ variant }) => variant === name)?.verdict;
  // Variants that went the same way are one change.
  const went = new Map<string, { readonly before: string; readonly after: string; readonly variants: string[] }>();
  for (const { variant, verdict: is } of later.facts.flow.verdicts) {
    const was = verdict(earlier, variant);
    if (was === undefined || was === is) continue;
    const alike = went.get(`${was} ${is}`) ?? { before: was, after: is, variants: [] };
    alike.variants.push(variant);
    went.set(`${was} ${is}`, alike);
  }
  for (const { before: was, after: is, variants } of went.values())
    found.push({
      kind: 'verdict changed',
      weight: 'protection',
      about: variants.join(', '),
      before: was,
      after: is,
      span: after.titleSpan,
    });
  return found;
}
