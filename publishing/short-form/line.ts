/** A step's words as one short line: remarks that ask for nothing and callouts of figures not printed here are left out; nothing else ever is. */
import type { LabelledStep, Prose, Reading } from '../../procedures-schema/index.ts';
import type { Inline } from '../book.ts';
import { inlineOf, type Scope, stepAnchor } from '../compose/index.ts';

interface Stretch {
  readonly at: number;
  readonly end: number;
}

/** Words that make a sentence more than a remark, whoever reads it. */
const binding = /\b(?:must|never|not|no|only|always|shall|until|unless|danger|keep)\b/i;

/** Sentences that name nothing known, use no known verb and bind nobody. */
function remarks(reading: Reading | undefined): Stretch[] {
  const sentences = reading?.sentences ?? [];
  const idle = sentences.filter((one, index) => index > 0 && one.status === 'remark' && !binding.test(one.text) && !/[:;]$/.test(one.text));
  return idle.map(({ at, end }) => ({ at, end }));
}

/** "(3)" points into a figure that the short form does not show. */
const callouts = (text: string): Stretch[] =>
  [...text.matchAll(/\s\(\d{1,2}\)/g)].map((match) => ({ at: match.index, end: match.index + match[0].length }));

export function shortLine(prose: Prose, reading: Reading | undefined, scope: Scope, from: LabelledStep): Inline[] {
  const out = [...remarks(reading), ...callouts(prose.text)].sort((a, b) => a.at - b.at);
  const pieces: Inline[] = [];
  let at = 0;
  for (const cut of [...out, { at: prose.text.length, end: prose.text.length }]) {
    if (cut.at > at) pieces.push(...inlineOf(slice(prose, at, cut.at), scope, from));
    at = Math.max(at, cut.end);
  }
  return trimmed(pieces.filter((one) => !(one.kind === 'text' && /^\s*\(\d{1,2}\)$/.test(one.text))).map((one) => near(one, scope, from)));
}

function slice(prose: Prose, from: number, to: number): Prose {
  const marks = prose.marks.filter((mark) => mark.at >= from && mark.end <= to);
  return {
    ...prose,
    text: prose.text.slice(from, to),
    marks: marks.map((mark) => ({ ...mark, at: mark.at - from, end: mark.end - from })),
  };
}

/** Every reference names its page when that is another one; figures and tables are those of the guide. */
function near(one: Inline, scope: Scope, from: LabelledStep): Inline {
  if (one.kind !== 'link') return one;
  const { id } = scope.facts.head;
  const own = one.anchor.startsWith(`doc ${id} `);
  if (own && / (?:figure|table) \d+$/.test(one.anchor)) return { kind: 'text', text: one.text };
  return own ? { ...one, page: true, near: stepAnchor(id, from.order) } : { ...one, page: false };
}

function trimmed(inline: readonly Inline[]): Inline[] {
  const out = inline.filter((one) => one.text !== '');
  const last = out[out.length - 1];
  if (last !== undefined && last.kind !== 'link') out[out.length - 1] = { ...last, text: last.text.trimEnd() };
  return out;
}
