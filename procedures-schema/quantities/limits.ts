/** Limits of a declared measurement per model: from front matter, or from a table in the body whose first column is `model`. */
import type { Span } from '../finding.ts';
import { type Cell, foldText, type Table } from '../format/index.ts';
import type { Measurement, Registers } from '../registers/index.ts';
import { type Attributes, evaluate, toldAmount, unitFor } from './formula.ts';
import type { DecimalMark } from './numbers.ts';
import { parseQuantity } from './parse.ts';
import type { Amount, Quantity } from './quantity.ts';
import { add, compare, subtract } from './rational.ts';
import { NO_UNIT, type Unit, unitAt } from './units.ts';

/** Limits for one model (`model` undefined: for all). */
export interface Limit {
  readonly model?: string;
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
    | 'double row'
    | 'missing row'
    | 'inverted'
    | 'empty cell'
    | 'unit differs'
    | 'both'
    | 'formula'
    | 'formula name'
    | 'formula dimension'
    | 'formula value';
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
  models: readonly string[],
  mark: DecimalMark = 'point',
  /** Attributes of a model, for limits that are formulas. */
  attributesOf: (model: string) => Attributes = () => ({}),
): Limits {
  if (measurement.table !== undefined) {
    const own = measurement.lower ?? measurement.upper ?? measurement.nominal;
    const both: LimitProblem[] =
      own !== undefined || measurement.perModel.length > 0 ? [{ kind: 'both', span: measurement.span, names: [measurement.table] }] : [];
    if (!table) return { limits: [], problems: [...both, { kind: 'no table', span: measurement.span, names: [measurement.table] }] };
    const read = fromTable(measurement.name, table, models, mark);
    return { limits: read.limits, problems: [...both, ...read.problems] };
  }
  const limits: Limit[] = [];
  const problems: LimitProblem[] = [];
  const take = (typed: Pick<Measurement, 'lower' | 'upper' | 'nominal' | 'tolerance'>, span: Span, model?: string): void => {
    if (typed.lower === undefined && typed.upper === undefined && typed.nominal === undefined) return;
    if (isFormula(typed, mark)) {
      for (const one of model === undefined ? models : [model]) {
        const computed = fromFormula(typed, span, mark, attributesOf(one), one, problems);
        if (computed) limits.push(computed);
      }
      return;
    }
    const limit = fromFields(typed, span, mark, problems);
    if (limit) limits.push(model === undefined ? limit : { ...limit, model });
  };
  take(measurement, measurement.span);
  for (const entry of measurement.perModel) {
    const model = models.find((one) => foldText(one) === foldText(entry.model));
    if (model === undefined) problems.push({ kind: 'stray row', span: entry.span, names: [entry.model] });
    else take(entry, entry.span, model);
  }
  if (measurement.perModel.length > 0) cover(limits, models, measurement.span, problems);
  ordered(limits, problems);
  return { limits, problems };
}

// ---------------------------------------------------------------- formulas

type Typed = Pick<Measurement, 'lower' | 'upper' | 'nominal' | 'tolerance'>;

/** Words that are no quantity but hold a name or a product: "1.6 % of span". */
function isFormula({ lower, upper }: Typed, mark: DecimalMark): boolean {
  return [lower, upper].some((text) => text !== undefined && !parseQuantity(text, mark) && /\p{L}{2,}/u.test(text) && /\d|\(/.test(text));
}

function fromFormula(
  typed: Typed,
  span: Span,
  mark: DecimalMark,
  attributes: Attributes,
  model: string,
  problems: LimitProblem[],
): Limit | undefined {
  let unit: Unit | undefined;
  const ends: { lower?: Amount; upper?: Amount } = {};
  for (const end of ['lower', 'upper'] as const) {
    const text = typed[end];
    if (text === undefined) continue;
    const evaluated = evaluate(text, attributes, mark);
    if ('problem' in evaluated) {
      const { kind, text: words, nearest } = evaluated.problem;
      const told = {
        form: 'formula',
        'unknown name': 'formula name',
        dimension: 'formula dimension',
        'no value': 'formula value',
      } as const;
      problems.push({ kind: told[kind], span, names: [text, words, model, ...(nearest === undefined ? [] : [nearest])] });
      return undefined;
    }
    unit ??= unitFor(evaluated.result);
    // A limit that was computed is never looser than what it was computed from.
    const amount = unit && toldAmount(evaluated.result, unit, end === 'lower' ? 'up' : 'down');
    if (!amount) {
      problems.push({ kind: 'formula dimension', span, names: [text, text, model] });
      return undefined;
    }
    ends[end] = amount;
  }
  const formula = [typed.lower, typed.upper].filter((text) => text !== undefined).join('; ');
  return unit === undefined ? undefined : { ...ends, unit, span, model, formula };
}

function fromFields(
  typed: Pick<Measurement, 'lower' | 'upper' | 'nominal' | 'tolerance'>,
  span: Span,
  mark: DecimalMark,
  problems: LimitProblem[],
): Limit | undefined {
  const read = (text: string | undefined): Quantity | undefined => {
    if (text === undefined) return undefined;
    const quantity = parseQuantity(text, mark);
    if (!quantity) problems.push({ kind: 'unreadable', span, names: [text] });
    return quantity;
  };
  const lower = read(typed.lower);
  const upper = read(typed.upper);
  const nominal = read(typed.nominal);
  const tolerance = read(typed.tolerance);
  if (nominal?.nominal && tolerance?.nominal) {
    const { unit } = nominal;
    return {
      lower: { ...nominal.nominal, value: subtract(nominal.nominal.value, tolerance.nominal.value) },
      upper: { ...nominal.nominal, value: add(nominal.nominal.value, tolerance.nominal.value) },
      unit,
      span,
    };
  }
  if (nominal?.form === 'tolerance' && nominal.nominal && nominal.plus) {
    const { nominal: middle, plus } = nominal;
    return {
      lower: { ...middle, value: subtract(middle.value, plus.value) },
      upper: { ...middle, value: add(middle.value, plus.value) },
      unit: nominal.unit,
      span,
    };
  }
  const unit = lower?.unit.symbol ? lower.unit : (upper?.unit ?? lower?.unit);
  if (!unit) return undefined;
  if (lower && upper && lower.unit.symbol !== '' && upper.unit.symbol !== '' && lower.unit.symbol !== upper.unit.symbol)
    problems.push({ kind: 'unit differs', span, names: [lower.unit.symbol, upper.unit.symbol] });
  const low = lower?.nominal ?? lower?.lower;
  const high = upper?.nominal ?? upper?.upper;
  return { ...(low ? { lower: low } : {}), ...(high ? { upper: high } : {}), unit, span };
}

// ---------------------------------------------------------------- tables

interface Column {
  readonly index: number;
  readonly end: 'lower' | 'upper' | 'both';
  readonly unit: Unit;
}

function fromTable(name: string, table: Table, models: readonly string[], mark: DecimalMark): Limits {
  const problems: LimitProblem[] = [];
  if (foldText(table.head[0]?.prose.text ?? '') !== 'model')
    return { limits: [], problems: [{ kind: 'no model column', span: table.head[0]?.span ?? table.span, names: [] }] };
  const columns = columnsFor(name, table.head);
  if (columns.length === 0) return { limits: [], problems: [{ kind: 'no limits column', span: table.span, names: [name] }] };
  const limits: Limit[] = [];
  for (const { cells, span } of table.rows) {
    const typed = cells[0]?.prose.text.trim() ?? '';
    const model = models.find((one) => foldText(one) === foldText(typed));
    if (model === undefined) {
      problems.push({ kind: 'stray row', span: cells[0]?.span ?? span, names: [typed] });
      continue;
    }
    if (limits.some((limit) => limit.model === model)) problems.push({ kind: 'double row', span: cells[0]?.span ?? span, names: [model] });
    const limit = rowLimit(columns, cells, mark, problems);
    limits.push({ ...limit, model, span });
  }
  cover(limits, models, table.span, problems);
  ordered(limits, problems);
  return { limits, problems };
}

/** Columns headed by the measurement's name with "lower" or "upper", or by these words alone, or by the name alone. */
function columnsFor(name: string, head: readonly Cell[]): Column[] {
  const wanted = foldText(name);
  const all = head.slice(1).map((cell, index): Column & { named: boolean } => {
    const text = foldText(cell.prose.text);
    const end = /\b(?:lower|least|min(?:imum)?|from)\b/.test(text)
      ? 'lower'
      : /\b(?:upper|most|max(?:imum)?|to)\b/.test(text)
        ? 'upper'
        : 'both';
    return { index: index + 1, end, unit: headUnit(cell.prose.text), named: text.includes(wanted) };
  });
  const named = all.filter((column) => column.named);
  return named.length > 0 ? named : all.filter((column) => column.end !== 'both');
}

/** "Lower (mm)", "Lower, mm", "Lower / mm". */
function headUnit(text: string): Unit {
  const found = /[(,/[]\s*([^()[\],]+?)\s*[)\]]?\s*$/.exec(text);
  return (found ? unitAt(found[1] ?? '', 0)?.unit : undefined) ?? NO_UNIT;
}

function rowLimit(
  columns: readonly Column[],
  cells: readonly Cell[],
  mark: DecimalMark,
  problems: LimitProblem[],
): Omit<Limit, 'model' | 'span'> {
  let lower: Amount | undefined;
  let upper: Amount | undefined;
  let unit: Unit = NO_UNIT;
  for (const column of columns) {
    const cell = cells[column.index];
    const text = cell?.prose.text.trim() ?? '';
    const span = cell?.span ?? { start: 0, end: 0 };
    if (/^[-–—]$/.test(text)) continue;
    if (text === '') {
      problems.push({ kind: 'empty cell', span, names: [] });
      continue;
    }
    const quantity = parseQuantity(text, mark);
    if (!quantity) {
      problems.push({ kind: 'unreadable', span, names: [text] });
      continue;
    }
    const typed = quantity.unit.symbol === '' ? column.unit : quantity.unit;
    if (unit.symbol !== '' && typed.symbol !== '' && typed.symbol !== unit.symbol)
      problems.push({ kind: 'unit differs', span, names: [unit.symbol, typed.symbol] });
    if (typed.symbol !== '') unit = typed;
    if (column.end !== 'upper')
      lower = quantity.lower ?? (column.end === 'lower' || quantity.form === 'single' ? quantity.nominal : undefined) ?? lower;
    if (column.end !== 'lower')
      upper = quantity.upper ?? (column.end === 'upper' || quantity.form === 'single' ? quantity.nominal : undefined) ?? upper;
  }
  return { ...(lower ? { lower } : {}), ...(upper ? { upper } : {}), unit };
}

function cover(limits: readonly Limit[], models: readonly string[], span: Span, problems: LimitProblem[]): void {
  const missing = models.filter((model) => !limits.some((limit) => limit.model === model));
  if (missing.length > 0) problems.push({ kind: 'missing row', span, names: missing });
}

function ordered(limits: readonly Limit[], problems: LimitProblem[]): void {
  for (const { lower, upper, span, model } of limits)
    if (lower && upper && compare(lower.value, upper.value) > 0)
      problems.push({ kind: 'inverted', span, names: [lower.text, upper.text, ...(model === undefined ? [] : [model])] });
}

/** The limits that hold for a model: its own row, else the ones for all. */
export function limitFor(limits: readonly Limit[], model: string): Limit | undefined {
  return limits.find((limit) => limit.model === model) ?? limits.find((limit) => limit.model === undefined);
}

/** What the register says of each model, for formulas. What differs from one serial range to another has no one value for the model. */
export const attributesIn =
  (registers: Registers) =>
  (name: string): Attributes => {
    const model = registers.models.find((one) => one.name === name);
    if (model === undefined) return {};
    const out: Record<string, string> = { ...model.attributes };
    for (const { attributes } of model.serials)
      for (const [key, typed] of Object.entries(attributes))
        out[key] = out[key] === undefined || out[key] === typed ? typed : 'differs by serial number';
    return out;
  };
