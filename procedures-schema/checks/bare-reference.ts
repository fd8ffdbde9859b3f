/**
 * References that stand without their brackets: "repeat steps #run to #read". No reader takes them for references; here they are found, so that they are told
 * as what they are and not as names that nobody registered.
 */
import type { ProcedureFacts } from './check.ts';
import type { SentencePlace } from './visit.ts';

export interface BareReference {
  /** Offsets are of the prose's text. */
  readonly at: number;
  readonly end: number;
  /** As it would be read. */
  readonly right: string;
}

const ID = '[a-z](?:[a-z0-9-]*[a-z0-9])?';
/** A word that says what is meant or the mark of an id, the id, and perhaps the end of a range: "from step #a to step #b" is the range a to b. */
const FORM = new RegExp(
  `(?<![\\w#])(?:(from\\s+)?(steps?|section|table|figure)\\s+(#?${ID})|(#${ID}))(?:(?:\\s+(?:to|through)\\s+|\\s*[-–]\\s*)(?:steps?\\s+)?(#?${ID}))?(?![\\w#-])`,
  'gi',
);

export function bareReferences(
  { tree, read }: Pick<ProcedureFacts, 'tree' | 'read'>,
  { sentence, prose }: Pick<SentencePlace, 'sentence' | 'prose'>,
): readonly BareReference[] {
  if (!/#|\bsteps?\b/i.test(sentence.text)) return [];
  const isStep = (id: string): boolean => read.labels.byId.has(id);
  const unread = sentence.status === 'unread';
  /** With its mark an id is meant as one; without it only where the sentence makes no other sense. */
  const isId = (typed: string, word: string | undefined): boolean => {
    const id = typed.replace('#', '');
    if (typed.startsWith('#')) return word !== undefined || (unread && (isStep(id) || tree.sections.some((section) => section.id === id)));
    return unread && word !== undefined && /^steps?$/i.test(word) && isStep(id);
  };
  const out: BareReference[] = [];
  const words = prose.text.slice(sentence.at, sentence.end);
  for (const found of words.matchAll(FORM)) {
    const [whole, from, word, named, alone, last] = found;
    const first = named ?? alone ?? '';
    if (!isId(first, word)) continue;
    const ranged = last !== undefined && /^(?:steps?)?$/i.test(word ?? '') && isId(last, 'steps');
    const skipped = ranged ? 0 : (from?.length ?? 0);
    const at = sentence.at + found.index + skipped;
    const end = ranged ? sentence.at + found.index + whole.length : at + whole.slice(skipped).indexOf(first) + first.length;
    if (prose.marks.some((mark) => mark.at < end && at < mark.end)) continue;
    const id = `#${first.replace('#', '')}`;
    const kind = word === undefined ? (isStep(id.slice(1)) ? 'step' : 'section') : word.toLowerCase().replace(/^steps$/, 'step');
    out.push({ at, end, right: ranged ? `[steps ${id} to #${last.replace('#', '')}]` : `[${kind} ${id}]` });
  }
  return out;
}
