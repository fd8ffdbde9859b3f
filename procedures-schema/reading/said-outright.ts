/** Readings said outright (F14): what braces say of a step, and whether it may be used. Wording what is amiss is for a check. */
import type { Attributes } from '../format/tree.ts';
import { sentenceKey } from './sentence-key.ts';

export interface SaidOutright {
  readonly reads: string;
  readonly because: string;
  readonly by: string;
  /** The key of the words that were read when it was said; '' where it was never bound. */
  readonly of: string;
  readonly span: Attributes['span'];
  /** Empty: it may be used. */
  readonly amiss: readonly ('reason' | 'initials' | 'unbound' | 'stale')[];
}

const INITIALS = /^\p{L}{1,6}$/u;

/** `words`: the instruction as it stands now, braces taken off. */
export function saidOutright(attributes: Attributes | undefined, words: string): SaidOutright | undefined {
  const entries = attributes?.entries ?? [];
  const value = (key: string): string => entries.find((entry) => entry.key === key)?.value?.trim() ?? '';
  const entry = entries.find(({ key }) => key === 'reads');
  if (!entry) return undefined;
  const [reads, because, by, of] = [value('reads'), value('because'), value('by'), value('of')];
  const amiss: SaidOutright['amiss'][number][] = [];
  if (because === '') amiss.push('reason');
  if (!INITIALS.test(by)) amiss.push('initials');
  if (of === '') amiss.push('unbound');
  else if (of !== sentenceKey(words)) amiss.push('stale');
  return { reads, because, by, of, span: entry.span, amiss };
}
