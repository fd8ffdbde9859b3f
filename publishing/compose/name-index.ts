/** The index of parts and names: every registered thing a step works on, with the steps it is met in. Page numbers are the layout's. */
import { eachReading, type ProcedureFacts, type ThingKind } from '../../procedures-schema/index.ts';
import type { Chapter, IndexEntry } from '../book.ts';
import { appliesIn } from './edition.ts';
import { type ComposeInput, scopeOf, stepAnchor } from './scope.ts';
import { wordsOf } from './spoken.ts';

/** What a technician looks for; sections, documents and measurements have lists of their own. */
const kinds: ReadonlySet<ThingKind> = new Set([
  'point',
  'control',
  'cover',
  'zone',
  'part',
  'fastener',
  'gauge',
  'tool',
  'consumable',
  'replacement',
]);

/** undefined where no step names a registered thing. */
export function indexChapter(procedures: readonly ProcedureFacts[], input: ComposeInput, startRight: boolean): Chapter | undefined {
  const words = wordsOf(input).guide;
  const found = new Map<string, Set<string>>();
  for (const facts of procedures) {
    const applies = appliesIn(scopeOf(facts, input, new Set()));
    for (const { step, reading } of eachReading(facts.read)) {
      if (!applies.step(step.step)) continue;
      for (const sentence of reading.sentences)
        for (const { thing } of [...sentence.mentions, ...sentence.actions.flatMap((action) => [...action.things, ...action.with])]) {
          if (!kinds.has(thing.kind)) continue;
          const anchors = found.get(thing.name) ?? new Set<string>();
          found.set(thing.name, anchors.add(stepAnchor(facts.head.id, step.order)));
        }
    }
  }
  const entries = [...found]
    .map(([name, anchors]): IndexEntry => ({ name, anchors: [...anchors] }))
    .sort((a, b) => (a.name.toLowerCase() < b.name.toLowerCase() ? -1 : 1));
  if (entries.length === 0) return undefined;
  return {
    title: words.indexTitle,
    anchor: 'index',
    startRight,
    blocks: [
      { kind: 'paragraph', style: 'lead', inline: [{ kind: 'text', text: words.indexIntro }] },
      { kind: 'index', entries },
    ],
  };
}
