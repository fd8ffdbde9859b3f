/**
 * What of a procedure is not so in an earlier revision: blocks compared by their printed words, and in blocks that were altered the words, items and
 * rows. Marks only; changes no word.
 */
import type { BookBlock, Flow, Inline } from '../book.ts';
import { commonOf, newWords } from './common-words.ts';

/** The same blocks, what is new or altered in them marked. Labels do not count: a step that only moved down a line is the same step. */
export function withChanges<T extends BookBlock>(now: readonly T[], before: Flow): readonly T[] {
  const partner = new Map(commonOf(now.map(wordsOf), before.map(wordsOf)));
  let reached = 0;
  return now.map((block, index): T => {
    const end = partner.get(index) ?? nextPartner(index, now.length, partner) ?? before.length;
    const last = index === now.length - 1;
    if (partner.has(index)) {
      // Something stood before it that is gone; where the block before is another one, its bar tells that already.
      const stood = end > reached && (index === 0 || partner.has(index - 1));
      reached = end + 1;
      const follows = last && reached < before.length;
      return stood || follows ? { ...block, gone: stood && follows ? 'both' : stood ? 'before' : 'after' } : block;
    }
    const old = reached < end ? before[reached] : undefined;
    if (old !== undefined) reached += 1;
    return (old === undefined ? undefined : partly(block, old)) ?? { ...block, changed: true };
  });
}

/** Marked inside where the two are the same kind of block and much is common; undefined: all of it is new. */
function partly<T extends BookBlock>(now: T, before: BookBlock): T | undefined;
function partly(now: BookBlock, before: BookBlock): BookBlock | undefined {
  if (now.kind === 'paragraph' && before.kind === 'paragraph') {
    const inline = inlineChanges(now.inline, before.inline);
    return inline && { ...now, inline };
  }
  if (now.kind === 'bullets' && before.kind === 'bullets') return { ...now, items: itemChanges(now.items, before.items) };
  if (now.kind === 'notice' && before.kind === 'notice' && now.panel === before.panel)
    return { ...now, body: withChanges(now.body, before.body) };
  if (now.kind === 'step' && before.kind === 'step') return stepChanges(now, before);
  if (now.kind === 'table' && before.kind === 'table' && rowWords(now.head) === rowWords(before.head))
    return { ...now, rows: rowChanges(now.rows, before.rows) };
  return undefined;
}

type StepBlock = Extract<BookBlock, { kind: 'step' }>;

function stepChanges(now: StepBlock, before: StepBlock): StepBlock | undefined {
  const [lead, was] = [now.body[0], before.body[0]];
  // A step that says something else is another step, whatever stands below it.
  if (lead?.kind === 'paragraph' && was?.kind === 'paragraph' && inlineChanges(lead.inline, was.inline) === undefined) return undefined;
  const notices = withChanges(now.notices, before.notices);
  const lost = now.notices.length === 0 && before.notices.length > 0;
  return { ...now, notices, body: withChanges(now.body, before.body), ...(lost ? { gone: 'before' } : {}) };
}

function itemChanges(now: readonly Flow[], before: readonly Flow[]): readonly Flow[] {
  const same = new Map(commonOf(now.map(flowWords), before.map(flowWords)));
  let reached = 0;
  return now.map((item, index) => {
    const end = same.get(index) ?? nextPartner(index, now.length, same) ?? before.length;
    const old = reached < end ? before[reached] : undefined;
    if (same.has(index)) {
      const lost = old !== undefined && (index === 0 || same.has(index - 1));
      reached = end + 1;
      const [first, ...rest] = item;
      return lost && first !== undefined ? [{ ...first, gone: 'before' as const }, ...rest] : item;
    }
    if (old !== undefined) reached += 1;
    return withChanges(item, old ?? []);
  });
}

type Rows = Extract<BookBlock, { kind: 'table' }>['rows'];

/** A row is marked as one: its cells are read together. */
function rowChanges(now: Rows, before: Rows): Rows {
  const same = new Map(commonOf(now.map(rowWords), before.map(rowWords)));
  let reached = 0;
  return now.map((row, index) => {
    const at = same.get(index);
    if (at === undefined) {
      const end = nextPartner(index, now.length, same) ?? before.length;
      if (reached < end) reached += 1;
      return row.map(marked);
    }
    const lost = at > reached && (index === 0 || same.has(index - 1));
    reached = at + 1;
    return lost || (index === now.length - 1 && reached < before.length) ? row.map(marked) : row;
  });
}

const marked = (inline: readonly Inline[]): readonly Inline[] => inline.map((one) => ({ ...one, changed: true }));

/** Cut between words where marked ones begin and end, so that lines break as they would without. */
function inlineChanges(now: readonly Inline[], before: readonly Inline[]): readonly Inline[] | undefined {
  const words = (inline: readonly Inline[]): { of: Inline; text: string }[] =>
    inline.flatMap((of) => (divided(of) ? (of.text.match(/\s*\S+\s*|\s+/g) ?? []).map((text) => ({ of, text })) : [{ of, text: of.text }]));
  const own = words(now);
  const told = ({ of, text }: { of: Inline; text: string }): string => `${of.kind} ${text.trim()}`;
  const fresh = newWords(own.map(told), words(before).map(told));
  if (fresh === undefined) return undefined;
  const out: Inline[] = [];
  own.forEach(({ of, text }, index) => {
    const last = out[out.length - 1];
    const before = own[index - 1];
    if (last !== undefined && before?.of === of && fresh[index] === fresh[index - 1])
      out[out.length - 1] = { ...last, text: last.text + text };
    else out.push({ ...of, text, ...(fresh[index] ? { changed: true } : {}) });
  });
  return out;
}

const divided = ({ kind }: Inline): boolean => kind === 'text' || kind === 'strong' || kind === 'em';

/** Titles of the headings under which something is marked, in order; for the record of revisions. */
export function changedSections(blocks: Flow): readonly string[] {
  const out: string[] = [];
  let section = '';
  for (const block of blocks) {
    if (block.kind === 'heading') section = block.text;
    if (section !== '' && isChanged(block) && out[out.length - 1] !== section) out.push(section);
  }
  return out;
}

/** Of a block and all that stands in it. */
function isChanged(part: unknown): boolean {
  if (Array.isArray(part)) return part.some(isChanged);
  if (typeof part !== 'object' || part === null) return false;
  return Object.entries(part).some(([name, own]) => name === 'changed' || name === 'gone' || (name !== 'image' && isChanged(own)));
}

function nextPartner(index: number, count: number, partner: ReadonlyMap<number, number>): number | undefined {
  for (let k = index + 1; k < count; k += 1) if (partner.has(k)) return partner.get(k);
  return undefined;
}

const inlineWords = (inline: readonly Inline[]): string =>
  inline
    .map(({ text }) => text)
    .join('')
    .replace(/\s+/g, ' ')
    .trim();
const rowWords = (row: readonly (readonly Inline[])[]): string => row.map(inlineWords).join(' | ');
const flowWords = (flow: Flow): string => flow.map(wordsOf).join('\n');

/** Everything of a block that is read, labels and page numbers left out. */
function wordsOf(block: BookBlock): string {
  switch (block.kind) {
    case 'heading':
      return `h${block.level} ${block.text}`;
    case 'paragraph':
      // Made from the labels of steps elsewhere, which do not count.
      if (block.style === 'sent' || block.style === 'ends') return block.style;
      return inlineWords(block.inline);
    case 'bullets':
      return block.items.map((item) => `- ${flowWords(item)}`).join('\n');
    case 'step':
      return ['step', ...block.notices.map(wordsOf), flowWords(block.body)].join('\n');
    case 'notice':
      return `${block.panel}\n${flowWords(block.body)}`;
    case 'table':
      return [block.head, ...block.rows].map(rowWords).join('\n');
    case 'figure':
      return `${block.alt} ${block.image.kind === 'svg' ? block.image.source : ''}`;
    case 'write-in':
      return `${block.label} ${block.unit ?? ''}`;
    case 'choice':
      return `${block.label} ${block.choices.join(' ')}`;
    default:
      return block.kind;
  }
}
