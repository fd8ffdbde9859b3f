/** Titles of sections that hold prose and no steps (F5). Everything else under a heading is a procedure section. */
import { foldText } from './fold.ts';

export const PROSE_SECTIONS: readonly string[] = ['When to use', 'Background', 'Records'];

const FOLDED = new Set(PROSE_SECTIONS.map(foldText));

export function isProseSection(title: string): boolean {
  return FOLDED.has(foldText(title));
}
