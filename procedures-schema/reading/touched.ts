/** Which registered things a hand, or energy let in, can be hurt by. */
import type { Item } from './items.ts';

export const TOUCHED: ReadonlySet<string> = new Set(['part', 'cover', 'fastener', 'zone', 'point', 'control']);

/** Whether the next name is one of them. */
export const touchedAfter = (items: readonly Item[], from: number): boolean => {
  const name = items.slice(from).find((item) => item.kind === 'name');
  return name?.kind === 'name' && name.things.some(({ kind }) => TOUCHED.has(kind));
};
