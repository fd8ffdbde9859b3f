/** What of a procedure is not so in an earlier revision: blocks compared by their printed words, steps by the words of their own. Marks only; changes nothing. */
import type { BookBlock, Flow, Inline } from '../book.ts';

/** The same blocks, those that are new or altered marked. Labels do not count: a step that only moved down a line is the same step. */
export function withChanges(now: Flow, before: Flow): Flow {
  const pairs = commonOf(now.map(wordsOf), before.map(wordsOf));
  const partner = new Map(pairs);
  let reached = 0;
  return now.map((block, index): BookBlock => {
    const same = partner.get(index);
    if (same !== undefined) {
      // Something stood before it that is gone: the bar tells where.
      const gone = same > reached && partner.get(index - 1) !== undefined;
      reached = same + 1;
      return gone ? { ...block, changed: true } : block;
    }
    const end = nextPartner(index, now.length, partner) ?? before.length;
    const old = reached < end ? before[reached] : undefined;
    if (old !== undefined) reached += 1;
    if (block.kind === 'step' && old?.kind === 'step') {
      const own = wordsOf({ ...block, body: ownOf(block.body) }) === wordsOf({ ...old, body: ownOf(old.body) });
      // Only substeps differ: each is looked at for itself.
      if (own) return { ...block, body: withChanges(block.body, old.body) };
    }
    return { ...block, changed: true };
  });
}

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

const isChanged = (block: BookBlock): boolean => block.changed === true || (block.kind === 'step' && block.body.some(isChanged));

const ownOf = (body: Flow): Flow => body.filter(({ kind }) => kind !== 'step');

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
      return [block.head, ...block.rows].map((row) => row.map(inlineWords).join(' | ')).join('\n');
    case 'figure':
      return `${block.alt} ${block.image.kind === 'svg' ? block.image.source : ''}`;
    case 'write-in':
      return `${block.label} ${block.unit ?? ''}`;
    default:
      return block.kind;
  }
}

/** Index pairs of a longest common subsequence, by the table of suffix lengths (Hirschberg 1975 has the recurrence; runs here are short). */
function commonOf(a: readonly string[], b: readonly string[]): readonly (readonly [number, number])[] {
  const width = b.length + 1;
  const lengths = new Uint32Array((a.length + 1) * width);
  for (let i = a.length - 1; i >= 0; i -= 1)
    for (let j = b.length - 1; j >= 0; j -= 1)
      lengths[i * width + j] =
        a[i] === b[j]
          ? (lengths[(i + 1) * width + j + 1] as number) + 1
          : Math.max(lengths[(i + 1) * width + j] as number, lengths[i * width + j + 1] as number);
  const out: [number, number][] = [];
  let [i, j] = [0, 0];
  while (i < a.length && j < b.length) {
    if (a[i] === b[j]) {
      out.push([i, j]);
      i += 1;
      j += 1;
    } else if ((lengths[(i + 1) * width + j] as number) >= (lengths[i * width + j + 1] as number)) i += 1;
    else j += 1;
  }
  return out;
}
