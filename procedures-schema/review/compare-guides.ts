/**
 * Two states of a guide compared: documents bound in, dropped, moved or changed, what its foreword and parts say, and how it is printed. What changed in
 * a document is told of that document.
 */
import type { LibraryFacts } from '../checks/index.ts';
import { type Changed, inWeight, WEIGHTS } from './changed.ts';
import { compareTexts } from './compare.ts';
import { movedIn, pairUp } from './pair-up.ts';
import { type Run, runsOf } from './pin-lines.ts';
import { boundIn, type GuideFacts } from './signed.ts';

/** A guide with the library that it was read in. */
export interface OneGuide {
  readonly guide: GuideFacts;
  readonly library: LibraryFacts;
}

export function compareGuides(earlier: OneGuide, later: OneGuide): readonly Changed[] {
  const found = [
    ...documents(earlier, later),
    ...changedInside(earlier, later),
    ...texts(earlier.guide, later.guide),
    ...head(earlier.guide, later.guide),
  ];
  const { revision = '', idSpan } = later.guide.head;
  if (found.length > 0 && earlier.guide.head.revision === later.guide.head.revision)
    found.push({ kind: 'revision kept', weight: 'scope', about: 'revision', after: revision, span: idSpan });
  return inWeight(found);
}

const entriesOf = ({ tree }: GuideFacts) =>
  tree.parts.flatMap(({ title, entries }) =>
    entries.map(({ document, span }, index) => ({ document, span, part: title, place: `${title} ${index + 1}` })),
  );

function documents(earlier: OneGuide, later: OneGuide): Changed[] {
  const [before, after] = [entriesOf(earlier.guide), entriesOf(later.guide)];
  // A document that is bound in twice has its places in their order.
  const left = new Map<string, number[]>();
  before.forEach(({ document }, index) => {
    left.set(document, [...(left.get(document) ?? []), index]);
  });
  const pairs = after.map(({ document }) => left.get(document)?.shift() ?? -1);
  const moved = movedIn(pairs);
  const found: Changed[] = [];
  for (const [index, { document, span, part, place }] of after.entries()) {
    const was = before[pairs[index] ?? -1];
    if (!was) found.push({ kind: 'document added', weight: 'work', about: document, after: place, span });
    else if (moved.has(index) || was.part !== part)
      found.push({ kind: 'document moved', weight: 'words', about: document, before: was.place, after: place, span });
  }
  for (const index of [...left.values()].flat()) {
    const { document, place } = before[index] as (typeof before)[number];
    found.push({ kind: 'document dropped', weight: 'work', about: document, before: place });
  }
  return found;
}

/** As grave as the gravest change in it. */
function changedInside(earlier: OneGuide, later: OneGuide): Changed[] {
  const was = new Map(boundIn(earlier.guide, earlier.library).map((facts) => [facts.head.id, facts]));
  return boundIn(later.guide, later.library).flatMap((facts): Changed[] => {
    const before = was.get(facts.head.id);
    const own = before ? compareTexts({ facts: before, library: earlier.library }, { facts, library: later.library }) : [];
    const weight = WEIGHTS.find((one) => own.some((change) => change.weight === one && change.kind !== 'revision kept'));
    if (weight === undefined) return [];
    const [old = '-', now = '-'] = [before?.head.revision, facts.head.revision];
    const revision = old === now ? {} : { before: old, after: now };
    return [{ kind: 'document changed', weight, about: facts.head.id, ...revision, file: facts.file, span: facts.head.idSpan }];
  });
}

interface Told extends Run {
  readonly section: string;
}

/** What stands in the guide's own words. A notice among them protects somebody. */
function texts(earlier: GuideFacts, later: GuideFacts): Changed[] {
  const runs = ({ tree }: GuideFacts): readonly Told[] => {
    const entries = new Set(tree.parts.flatMap((part) => part.entries.map(({ span }) => span.start)));
    return [
      ...runsOf(tree.foreword).map((run) => ({ ...run, section: 'foreword' })),
      ...tree.parts.flatMap(({ title, blocks }) =>
        runsOf(blocks)
          .filter(({ span }) => !entries.has(span.start))
          .map((run) => ({ ...run, section: title })),
      ),
    ];
  };
  const [before, after] = [runs(earlier), runs(later)];
  const pairs = pairUp(before, after);
  const kept = new Set(pairs);
  const weight = (...all: readonly (Told | undefined)[]) => (all.some((one) => one?.notice !== undefined) ? 'protection' : 'words');
  const words = ({ notice, text }: Told): string => (notice === undefined ? text : `${notice.toUpperCase()}: ${text}`);
  return [
    ...after.flatMap((run, index): Changed[] => {
      const was = before[pairs[index] ?? -1];
      if (was && words(was) === words(run)) return [];
      const place = { about: run.section, after: words(run), span: run.span };
      return [{ kind: 'text changed', weight: weight(was, run), ...(was ? { before: words(was) } : {}), ...place }];
    }),
    ...before.flatMap((run, index): Changed[] =>
      kept.has(index) ? [] : [{ kind: 'text changed', weight: weight(run), about: run.section, before: words(run), earlierSpan: run.span }],
    ),
  ];
}

const VALUES = [
  ['title', 'words'],
  ['subtitle', 'words'],
  ['language', 'scope'],
  ['paper', 'scope'],
  ['binding', 'scope'],
  ['duplex', 'scope'],
] as const;

function head(earlier: GuideFacts, later: GuideFacts): Changed[] {
  const [before, after] = [earlier.head, later.head];
  const span = after.titleSpan;
  const said = (value: string | boolean | undefined): string => (typeof value === 'boolean' ? (value ? 'yes' : 'no') : (value ?? ''));
  const values = VALUES.flatMap(([about, weight]): Changed[] =>
    before[about] === after[about]
      ? []
      : [{ kind: 'value changed', weight, about, before: said(before[about]), after: said(after[about]), span }],
  );
  const lists = [
    ['models', before.models, after.models, 'scope'],
    ['parts', earlier.tree.parts.map(({ title }) => title), later.tree.parts.map(({ title }) => title), 'words'],
  ] as const;
  return [
    ...values,
    ...lists.flatMap(([about, was, is, weight]): Changed[] => [
      ...is.filter((name) => !was.includes(name)).map((name): Changed => ({ kind: 'entry added', weight, about, after: name, span })),
      ...was.filter((name) => !is.includes(name)).map((name): Changed => ({ kind: 'entry removed', weight, about, before: name })),
    ]),
  ];
}
