/** What is wrong with a field of a register or of front matter, in words for people. Checks stamp id and severity on it. */
import type { Span } from '../finding.ts';

export interface SchemaProblem {
  readonly span: Span;
  readonly message: string;
  readonly actual?: string;
  readonly expected?: string;
  /** Where in the file, as keys: "families / lift table / energy / supply / kind". */
  readonly path: string;
}

export type FieldPath = readonly (string | number)[];

export function pathText(path: FieldPath): string {
  return path.map((step) => (typeof step === 'number' ? String(step + 1) : step)).join(' / ');
}

/** "a, b or c" */
export function oneOf(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}

/** "an energy source", "a cover" */
export function withArticle(noun: string): string {
  return `${/^[aeio]|^u(?!n[iu]|s)/i.test(noun) ? 'an' : 'a'} ${noun}`;
}
