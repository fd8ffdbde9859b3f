/** What every completion is told, and what they share: how kinds of things are weighed, how long a list may be. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { CaretPlace } from './caret.ts';
import type { Completion, Completions } from './model.ts';

export interface CompleteContext {
  readonly path: string;
  readonly text: string;
  readonly offset: number;
  readonly library: LibraryFacts;
  readonly facts: ProcedureFacts | undefined;
}

/**
 * A list that is cut is asked for anew with every letter, and until the answer is there an editor may go on offering the old one: a word taken then would stand
 * over another that was typed. So only those lists are cut that would be too long to be shown.
 */
export const MOST = 1000;

export function cut(place: Completions['place'], items: readonly Completion[]): Completions {
  return { place, items: items.slice(0, MOST), more: items.length > MOST };
}

export type At<K extends CaretPlace['kind']> = Extract<CaretPlace, { readonly kind: K }>;

/** What a step most often names comes first among equals. */
const WEIGHTS: Partial<Readonly<Record<Completion['kind'], number>>> = {
  measurement: 0,
  point: 1,
  control: 2,
  cover: 2,
  part: 2,
  fastener: 2,
  gauge: 2,
  step: 3,
  section: 3,
  tool: 3,
  consumable: 4,
  replacement: 4,
  table: 5,
  figure: 5,
  procedure: 5,
  document: 6,
};

export const weightOf = (kind: Completion['kind']): number => WEIGHTS[kind] ?? 7;
