/** Limits of a measurement as printed: one line a model or range of serial numbers, or one for all where they are the same. */
import {
  type Limit,
  limitModels,
  limitQuantity,
  limitsFor,
  limitsOf,
  type Measurement,
  printDual,
  type SerialBounds,
} from '../../procedures-schema/index.ts';
import type { Inline } from '../book.ts';
import { modelsOf } from './edition.ts';
import { decimalIn } from './language.ts';
import { type Scope, tableNamed } from './scope.ts';
import { unitsOf } from './units-edition.ts';

export interface PrintedLimit {
  /** undefined: all models printed. */
  readonly model?: string;
  /** The model with its range of serial numbers, where limits differ by it. */
  readonly name?: string;
  readonly limit: Limit;
  readonly text: string;
}

export function limitsPrinted(measurement: Measurement, scope: Scope): readonly PrintedLimit[] {
  const models = modelsOf(scope);
  const table = measurement.table === undefined ? undefined : tableNamed(scope, measurement.table);
  const { registers } = scope.input.library;
  const { limits } = limitsOf(measurement, table, limitModels(scope.facts.head, registers), decimalIn(scope.input));
  const rows = models.flatMap((model) =>
    limitsFor(limits, model).map(
      (limit): PrintedLimit => ({
        model,
        name: rangePrinted(model, limit.serial, scope.words),
        limit,
        text: limitText(limit, scope),
      }),
    ),
  );
  const first = rows[0];
  const all = models.every((model) => rows.some((row) => row.model === model));
  if (first === undefined || !all || rows.some((row) => row.text !== first.text)) return rows;
  return [{ limit: first.limit, text: first.text }];
}

/** "DL-25", "DL-25 (serial up to 2199)": a bare number after a model is read as another model. */
export const rangePrinted = (model: string, serial: SerialBounds | undefined, words: Scope['words']): string =>
  serial === undefined ? model : `${model} (${words.serial(serial.from, serial.to)})`;

/** A limit and whom it is for; no names: for all. */
export interface LimitLine {
  readonly names: string;
  readonly text: string;
}

/** Models and ranges of serial numbers with the same limit share a line, in the order of the first of each. */
export function limitLines(measurement: Measurement, scope: Scope): readonly LimitLine[] {
  const lines = new Map<string, string[]>();
  for (const { name, text } of limitsPrinted(measurement, scope))
    lines.set(text, [...(lines.get(text) ?? []), ...(name === undefined ? [] : [unbroken(name)])]);
  return [...lines].map(([text, names]) => ({ names: names.join(', '), text }));
}

/**
 * The same for a cell of a table, an entry a line: a bare name at the end of one line before a value on the next is read as another machine's. Names are
 * strong as beside the step, so that an entry of two lines is seen to be one.
 */
export const limitCell = (measurement: Measurement, scope: Scope): Inline[] =>
  limitLines(measurement, scope).flatMap(({ names, text }, index): Inline[] => [
    ...(index === 0 ? [] : [plain(NEXT)]),
    ...(names === '' ? [plain(text)] : [strong(`${names}:`), plain(`${names.endsWith(')') ? ' ' : '\u00a0'}${text}`)]),
  ]);

/** What is judged, an outcome a line. */
export const outcomeCell = (outcomes: readonly (readonly [outcome: string, seen: string])[]): Inline[] =>
  outcomes.flatMap(([outcome, seen], index) => [...(index === 0 ? [] : [plain(NEXT)]), strong(`${outcome}:`), plain(` ${seen}`)]);

const NEXT = '\u2028';
const strong = (text: string): Inline => ({ kind: 'strong', text });
const plain = (text: string): Inline => ({ kind: 'text', text });

/** A model and its range of serial numbers on one line. */
const unbroken = (name: string): string => name.replaceAll(' ', '\u00a0');

/**
 * "0 to 4 mm (0 to 0.15 in)", second unit as the house wants it, in the words of the book. A range is never broken: half of one, read at arm's length,
 * is another limit.
 */
export function limitText(
  limit: Limit,
  scope: { readonly input: Pick<Scope['input'], 'library' | 'units' | 'written'>; readonly words: Scope['words'] },
): string {
  const { words, input } = scope;
  const quantity = limitQuantity(limit);
  if (quantity === undefined) return words.noLimit;
  return printDual(quantity, unitsOf(input), decimalIn(input))
    .replace(/(\d) to (?=[\d−])/g, `$1\u00a0${words.to}\u00a0`)
    .replace(/at least (?=[\d−])/g, `${words.atLeast}\u00a0`)
    .replace(/at most (?=[\d−])/g, `${words.atMost}\u00a0`);
}
