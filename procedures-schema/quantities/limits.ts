/**
 * Limits of a declared measurement per model, and per range of serial numbers where they differ: from front matter, or from a table in
 * the body whose first column is `model` (limits-table.ts).
 */

import type { Span } from '../finding.ts';
import { foldText, type Table } from '../format/index.ts';
import { Recent } from '../recent.ts';
import type { Measurement, Variant } from '../registers/index.ts';
import { around } from './around.ts';
import { computedEnd, decimalsTold, isFormula } from './limit-formula.ts';
import { inRanges, tableLimits } from './limits-table.ts';
import { holdsSerial, type LimitModel, type ModelRange, namedRange, rangeName, rangesIn, type SerialBounds } from './model-ranges.ts';
import type { DecimalMark } from './numbers.ts';
import { parseQuantity } from './parse.ts';
import type { Amount, Quantity } from './quantity.ts';
import { compare, type Rational } from './rational.ts';
import { convert, sameKind, type Unit } from './units.ts';

/** Limits for one model (`model` undefined: for all). */
export interface Limit {
  readonly model?: string;
  /** Only these serial numbers of the model; absent: all of them. */
  readonly serial?: SerialBounds;
  readonly lower?: Amount;
  readonly upper?: Amount;
  readonly unit: Unit;
  readonly span: Span;
  /** Computed from attributes of the model: the formula's words. */
  readonly formula?: string;
}

export interface LimitProblem {
  readonly kind:
    | 'no table'
    | 'no model column'
    | 'no limits column'
    | 'unreadable'
    | 'stray row'
    | 'serial break'
    | 'double row'
    | 'missing row'
    | 'inverted'
    | 'empty cell'
    | 'unit differs'
    | 'both'
    | 'formula'
    | 'formula name'
    | 'formula dimension'
    | 'formula value'
    | 'formula unit'
    | 'formula end';
  readonly span: Span;
  /** Models, cells or values concerned, for the message. */
  readonly names: readonly string[];
}

export interface Limits {
  readonly limits: readonly Limit[];
  readonly problems: readonly LimitProblem[];
}

/** `table` is the body table that `measurement.table` names, if there is one. `models` are those the procedure is for. */
export function limitsOf(
  measurement: Measurement,
  table: Table | undefined,
  models: readonly LimitModel[],
  mark: DecimalMark = 'point',
): Limits {
  const known = KNOWN.get(measurement);
  if (known && known.table === table && known.models === models && known.mark === mark) return known.limits;
  const limits = workedOut(measurement, table, models, mark);
  KNOWN.set(measurement, { table, models, mark, limits });
  return limits;
}

interface Known {
  readonly table: Table | undefined;
  readonly models: readonly LimitModel[];
  readonly mark: DecimalMark;
  readonly limits: Limits;
}
/**
 * Each check, each machine and each page asks. Of a long library only the last are remembered, or the limits of all would stay, with the
 * tables that they stand in, as long as the fronts of all procedures do.
 */
const KNOWN = Recent.ofObjects<Measurement, Known>(500);

function workedOut(measurement: Measurement, table: Table | undefined, models: readonly LimitModel[], mark: DecimalMark): Limits {
  const problems: LimitProblem[] = [];
  const limits: Limit[] = [];
  if (measurement.table !== undefined) {
    const own = measurement.lower ?? measurement.upper ?? measurement.nominal;
    if (own !== undefined || measurement.perModel.length > 0)
      problems.push({ kind: 'both', span: measurement.span, names: [measurement.table] });
    if (!table) return { limits, problems: [...problems, { kind: 'no table', span: measurement.span, names: [measurement.table] }] };
    const read = tableLimits(measurement.name, table, models, mark);
    limits.push(...read.limits);
    problems.push(...read.problems);
    if (read.columns.length > 0) cover(limits, models, table.span, problems);
  } else {
    const rows = fromFront(measurement, models, mark, limits, problems);
    if (measurement.perModel.length > 0) cover(rows, models, measurement.span, problems);
  }
  ordered(limits, problems);
  return { limits, problems };
}

// ---------------------------------------------------------------- front matter

/** Whom limits are given for, whether or not they can be worked out. */
type Row = Pick<Limit, 'model' | 'serial' | 'span'>;

type Typed = Pick<Measurement, 'lower' | 'upper' | 'nominal' | 'tolerance'>;

function fromFront(
  measurement: Measurement,
  models: readonly LimitModel[],
  mark: DecimalMark,
  limits: Limit[],
  problems: LimitProblem[],
): readonly Row[] {
  const rows: Row[] = [];
  const computed = (typed: Typed): boolean =>
    [typed.lower, typed.upper].some((text) => text !== undefined && isFormula(text, models, mark));
  const worked = (typed: Typed, span: Span, model: LimitModel, ranges: readonly ModelRange[], serial?: SerialBounds): void => {
    limits.push(
      ...inRanges(model, ranges, serial, problems, (range, told) => fromFormula(typed, span, { model, range }, models, mark, told)),
    );
  };
  if (given(measurement)) {
    const { span } = measurement;
    if (computed(measurement)) for (const model of models) worked(measurement, span, model, model.ranges);
    else limits.push(...fromFields(measurement, span, mark, problems));
  }
  for (const entry of measurement.perModel) {
    const { span } = entry;
    const named = namedRange(entry.model, models);
    const ranges = named && rangesIn(named);
    if (named === undefined) problems.push({ kind: 'stray row', span, names: [entry.model] });
    else if (ranges === undefined)
      problems.push({
        kind: 'serial break',
        span,
        names: [entry.model, named.model.ranges.map(({ serial }) => rangeName(named.model.name, serial)).join(', ')],
      });
    else if (given(entry)) {
      const row: Row = { model: named.model.name, ...(named.serial ? { serial: named.serial } : {}), span };
      rows.push(row);
      if (computed(entry)) worked(entry, span, named.model, ranges, named.serial);
      else limits.push(...fromFields(entry, span, mark, problems).map((limit) => ({ ...limit, ...row })));
    }
  }
  return rows;
}

const given = ({ lower, upper, nominal }: Typed): boolean => lower !== undefined || upper !== undefined || nominal !== undefined;

function fromFormula(
  typed: Typed,
  span: Span,
  on: { readonly model: LimitModel; readonly range: ModelRange },
  models: readonly LimitModel[],
  mark: DecimalMark,
  problems: LimitProblem[],
): Omit<Limit, 'model' | 'serial'> | undefined {
  // An end that is typed keeps its digits, and the computed one is told in its unit.
  const plain = [typed.lower, typed.upper].map((text) => (text === undefined ? undefined : parseQuantity(text, mark)));
  let unit = plain.find((quantity) => quantity !== undefined && quantity.unit.symbol !== '')?.unit;
  const ends: { lower?: Amount; upper?: Amount } = {};
  for (const [index, end] of (['lower', 'upper'] as const).entries()) {
    const text = typed[end];
    if (text === undefined) continue;
    const own = plain[index]?.nominal;
    if (own !== undefined && !isFormula(text, models, mark) && (plain[index]?.unit.symbol ?? '') === (unit?.symbol ?? '')) {
      ends[end] = own;
      continue;
    }
    const made = computedEnd(text, end, on, unit, mark);
    if ('trouble' in made) {
      problems.push({ ...made.trouble, span });
      return undefined;
    }
    unit ??= made.unit;
    ends[end] = made.amount;
  }
  // The ends of a range are told alike: nobody reads "8 to 15.25 N" as said with one care.
  const decimals = Math.max(decimalsTold(ends.lower), decimalsTold(ends.upper));
  for (const [index, end] of (['lower', 'upper'] as const).entries()) {
    const text = typed[end];
    if (text === undefined || ends[end] === plain[index]?.nominal || decimalsTold(ends[end]) === decimals) continue;
    const again = computedEnd(text, end, on, unit, mark, decimals);
    if ('amount' in again) ends[end] = again.amount;
  }
  const formula = [typed.lower, typed.upper].filter((text) => text !== undefined).join('; ');
  return unit === undefined ? undefined : { ...ends, unit, span, formula };
}

/** One, or none where nothing could be read. */
function fromFields(fields: Typed, span: Span, mark: DecimalMark, problems: LimitProblem[]): readonly Limit[] {
  const read = (text: string | undefined): Quantity | undefined => {
    if (text === undefined) return undefined;
    const quantity = parseQuantity(text, mark);
    if (!quantity) problems.push({ kind: 'unreadable', span, names: [text] });
    return quantity;
  };
  const lower = read(fields.lower);
  const upper = read(fields.upper);
  const nominal = read(fields.nominal);
  const tolerance = read(fields.tolerance);
  const middle = nominal?.nominal;
  const typed = tolerance?.nominal ?? (nominal?.form === 'tolerance' ? nominal.plus : undefined);
  if (nominal && middle && typed) {
    const half = inUnitOf(typed.value, tolerance?.unit, nominal.unit);
    if (half === undefined) {
      problems.push({ kind: 'unit differs', span, names: [nominal.unit.symbol, tolerance?.unit.symbol ?? ''] });
      return [];
    }
    return [{ ...around(middle, half, typed.step), unit: nominal.unit, span }];
  }
  const unit = lower?.unit.symbol ? lower.unit : (upper?.unit ?? lower?.unit);
  if (!unit) return [];
  if (lower && upper && lower.unit.symbol !== '' && upper.unit.symbol !== '' && lower.unit.symbol !== upper.unit.symbol)
    problems.push({ kind: 'unit differs', span, names: [lower.unit.symbol, upper.unit.symbol] });
  const low = lower?.nominal ?? lower?.lower;
  const high = upper?.nominal ?? upper?.upper;
  return [{ ...(low ? { lower: low } : {}), ...(high ? { upper: high } : {}), unit, span }];
}

/** A tolerance in the unit of what it belongs to; undefined where it measures something else. */
function inUnitOf(value: Rational, from: Unit | undefined, to: Unit): Rational | undefined {
  if (from === undefined || from.symbol === '' || from.symbol === to.symbol) return value;
  return sameKind(from, to) ? convert(value, from, to, true) : undefined;
}

// ---------------------------------------------------------------- all machines, once, in order

/** Every model, and every range of serial numbers of it, has one limit and not two. */
function cover(rows: readonly Row[], models: readonly LimitModel[], span: Span, problems: LimitProblem[]): void {
  const missing: string[] = [];
  for (const { name, ranges } of models) {
    const own = rows.filter(({ model }) => model === name);
    const bare = ranges.filter(({ serial }) => !own.some((row) => holdsSerial(row.serial, serial)));
    if (bare.length === ranges.length) missing.push(name);
    else missing.push(...bare.map(({ serial }) => rangeName(name, serial)));
    const twice = new Map<Row, string>();
    for (const { serial } of ranges) {
      const [, second] = own.filter((row) => holdsSerial(row.serial, serial));
      if (second) twice.set(second, rangeName(name, second.serial));
    }
    for (const [row, told] of twice) problems.push({ kind: 'double row', span: row.span, names: [told] });
  }
  if (missing.length > 0) problems.push({ kind: 'missing row', span, names: missing });
}

function ordered(limits: readonly Limit[], problems: LimitProblem[]): void {
  for (const { lower, upper, span, model, serial } of limits)
    if (lower && upper && compare(lower.value, upper.value) > 0)
      problems.push({
        kind: 'inverted',
        span,
        names: [lower.text, upper.text, ...(model === undefined ? [] : [rangeName(model, serial)])],
      });
}

// ---------------------------------------------------------------- asking

/** The limits of a model: one, or one for each range of serial numbers where they differ; else the one for all. */
export function limitsFor(limits: readonly Limit[], model: string): readonly Limit[] {
  const folded = foldText(model);
  const own = limits.filter((limit) => limit.model !== undefined && foldText(limit.model) === folded);
  return own.length > 0 ? own : limits.filter((limit) => limit.model === undefined).slice(0, 1);
}

/** The limits that hold for one machine. */
export const limitFor = (limits: readonly Limit[], { model, serial }: Pick<Variant, 'model' | 'serial'>): Limit | undefined =>
  limitsFor(limits, model).find((limit) => holdsSerial(limit.serial, serial));
