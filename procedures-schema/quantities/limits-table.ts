/** Limits from a table of the body: its rows by model and range of serial numbers, its columns by end. Formulas are worked out row by row. */
import { type Cell, foldText, type Table } from '../format/index.ts';
import { around } from './around.ts';
import { computedEnd, decimalsTold, isFormula } from './limit-formula.ts';
import type { Limit, LimitProblem } from './limits.ts';
import { type LimitModel, type ModelRange, namedRange, rangeName, rangesIn, type SerialBounds } from './model-ranges.ts';
import type { DecimalMark } from './numbers.ts';
import { parseQuantity } from './parse.ts';
import type { Amount } from './quantity.ts';
import { NO_UNIT, type Unit, unitAt } from './units.ts';

export interface LimitColumn {
  readonly index: number;
  readonly end: 'lower' | 'upper' | 'both';
  /** Of the heading; NO_UNIT where it has none. */
  readonly unit: Unit;
}

/** A limit and the row that it was read from. */
export interface RowLimit extends Limit {
  readonly row: Table['rows'][number];
  /** Columns whose cell is a formula, with what it comes to here. */
  readonly computed: ReadonlyMap<number, ComputedCell>;
}

export interface ComputedCell {
  readonly end: 'lower' | 'upper';
  readonly amount: Amount;
  readonly unit: Unit;
  /** "at most" where the heading names no end; else ''. */
  readonly words: string;
  /** The heading names the unit, and the value stands alone. */
  readonly headed: boolean;
}

export interface TableLimits {
  readonly limits: readonly RowLimit[];
  readonly columns: readonly LimitColumn[];
  readonly problems: readonly LimitProblem[];
}

/** `name` is the measurement's: columns are found by it. Coverage and order are not looked at here. */
export function tableLimits(name: string, table: Table, models: readonly LimitModel[], mark: DecimalMark): TableLimits {
  const none = (problem: LimitProblem): TableLimits => ({ limits: [], columns: [], problems: [problem] });
  if (foldText(table.head[0]?.prose.text ?? '') !== 'model')
    return none({ kind: 'no model column', span: table.head[0]?.span ?? table.span, names: [] });
  const columns = columnsFor(name, table.head);
  if (columns.length === 0) return none({ kind: 'no limits column', span: table.span, names: [name] });
  const problems: LimitProblem[] = [];
  const limits = table.rows.flatMap((row) => {
    const place = { span: row.cells[0]?.span ?? row.span };
    const typed = row.cells[0]?.prose.text.trim() ?? '';
    const named = namedRange(typed, models);
    if (named === undefined) {
      problems.push({ kind: 'stray row', ...place, names: [typed] });
      return [];
    }
    const ranges = rangesIn(named);
    if (ranges === undefined) {
      problems.push({
        kind: 'serial break',
        ...place,
        names: [typed, named.model.ranges.map(({ serial }) => rangeName(named.model.name, serial)).join(', ')],
      });
      return [];
    }
    const made = inRanges(named.model, ranges, named.serial, problems, (range, told) =>
      rowLimit(columns, row.cells, { model: named.model, range }, mark, told),
    );
    return made.map((limit): RowLimit => ({ ...limit, span: row.span, row }));
  });
  return { limits, columns, problems };
}

interface Made {
  readonly lower?: Amount;
  readonly upper?: Amount;
  readonly unit: Unit;
}

/** One limit where all ranges come to the same, else one for each. What is wrong on several of them is told once. */
export function inRanges<T extends Made>(
  model: LimitModel,
  ranges: readonly ModelRange[],
  serial: SerialBounds | undefined,
  problems: LimitProblem[],
  make: (range: ModelRange, told: LimitProblem[]) => T | undefined,
): readonly (T & { readonly model: string; readonly serial?: SerialBounds })[] {
  const told: LimitProblem[] = [];
  const made = ranges.flatMap((range) => {
    const limit = make(range, told);
    return limit === undefined ? [] : [{ range, limit }];
  });
  const seen = new Set<string>();
  for (const problem of told) {
    const key = JSON.stringify([problem.kind, problem.span, problem.names.slice(0, 2)]);
    if (!seen.has(key)) problems.push(problem);
    seen.add(key);
  }
  const [first] = made;
  const same = made.every(({ limit }) => first !== undefined && sameLimit(limit, first.limit));
  if (first !== undefined && same && made.length === ranges.length)
    return [{ ...first.limit, model: model.name, ...(serial ? { serial } : {}) }];
  return made.map(({ range, limit }) => ({ ...limit, model: model.name, ...(range.serial ? { serial: range.serial } : {}) }));
}

const sameLimit = (a: Made, b: Made): boolean =>
  a.unit.symbol === b.unit.symbol && a.lower?.text === b.lower?.text && a.upper?.text === b.upper?.text;

/** Columns headed by the measurement's name with "lower" or "upper", or by these words alone, or by the name alone. */
function columnsFor(name: string, head: readonly Cell[]): LimitColumn[] {
  const wanted = foldText(name);
  const all = head.slice(1).map((cell, index): LimitColumn & { named: boolean } => {
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
  columns: readonly LimitColumn[],
  cells: readonly Cell[],
  on: { readonly model: LimitModel; readonly range: ModelRange },
  mark: DecimalMark,
  problems: LimitProblem[],
): Pick<RowLimit, 'lower' | 'upper' | 'unit' | 'formula' | 'computed'> {
  let lower: Amount | undefined;
  let upper: Amount | undefined;
  let unit: Unit = NO_UNIT;
  const formulas: { readonly column: LimitColumn; readonly text: string; readonly span: Cell['span'] }[] = [];
  const known = (typed: Unit, span: Cell['span']): void => {
    if (unit.symbol !== '' && typed.symbol !== '' && typed.symbol !== unit.symbol)
      problems.push({ kind: 'unit differs', span, names: [unit.symbol, typed.symbol] });
    if (typed.symbol !== '') unit = typed;
  };
  for (const column of columns) {
    const cell = cells[column.index];
    const text = cell?.prose.text.trim() ?? '';
    const span = cell?.span ?? { start: 0, end: 0 };
    if (/^[-–—]$/.test(text)) continue;
    if (text === '') {
      problems.push({ kind: 'empty cell', span, names: [] });
      continue;
    }
    if (isFormula(text, [on.model], mark)) {
      formulas.push({ column, text, span });
      continue;
    }
    const quantity = parseQuantity(text, mark);
    if (!quantity) {
      problems.push({ kind: 'unreadable', span, names: [text] });
      continue;
    }
    known(quantity.unit.symbol === '' ? column.unit : quantity.unit, span);
    const { nominal, plus } = quantity;
    if (quantity.form === 'tolerance' && nominal && plus) {
      const ends = around(nominal, plus.value, plus.step);
      if (column.end !== 'upper') lower = ends.lower;
      if (column.end !== 'lower') upper = ends.upper;
      continue;
    }
    if (column.end !== 'upper')
      lower = quantity.lower ?? (column.end === 'lower' || quantity.form === 'single' ? nominal : undefined) ?? lower;
    if (column.end !== 'lower')
      upper = quantity.upper ?? (column.end === 'upper' || quantity.form === 'single' ? nominal : undefined) ?? upper;
  }
  // After the typed cells, so that a computed one is told in their unit.
  const computed = new Map<number, ComputedCell>();
  for (const { column, text, span } of formulas) {
    const one = oneEnd(text, column.end);
    if (one === undefined) {
      problems.push({ kind: 'formula end', span, names: [text] });
      continue;
    }
    const wanted = column.unit.symbol !== '' ? column.unit : unit.symbol !== '' ? unit : undefined;
    const made = computedEnd(one.text, one.end, on, wanted, mark);
    if ('trouble' in made) {
      problems.push({ ...made.trouble, span });
      continue;
    }
    known(made.unit, span);
    if (one.end === 'lower') lower = made.amount;
    else upper = made.amount;
    computed.set(column.index, { ...made, end: one.end, words: one.words, headed: column.unit.symbol !== '' });
  }
  // The ends of a range are told alike.
  const decimals = Math.max(decimalsTold(lower), decimalsTold(upper));
  for (const { column, text } of formulas) {
    const [one, made] = [oneEnd(text, column.end), computed.get(column.index)];
    if (one === undefined || made === undefined || decimalsTold(made.amount) === decimals) continue;
    const again = computedEnd(one.text, one.end, on, made.unit, mark, decimals);
    if (!('amount' in again)) continue;
    if (one.end === 'lower') lower = again.amount;
    else upper = again.amount;
    computed.set(column.index, { ...made, amount: again.amount });
  }
  const formula = formulas.map(({ text }) => text).join('; ');
  return { ...(lower ? { lower } : {}), ...(upper ? { upper } : {}), unit, ...(formula === '' ? {} : { formula }), computed };
}

/** Which end a formula is; under a heading that names no end its own first words say so, and `words` are printed before the value. */
function oneEnd(
  text: string,
  end: LimitColumn['end'],
): { readonly text: string; readonly end: 'lower' | 'upper'; readonly words: string } | undefined {
  if (end !== 'both') return { text, end, words: '' };
  const [all, least] = /^(?:(at least|min\.?|minimum)|at most|max\.?|maximum)\s+/i.exec(text) ?? [];
  if (all === undefined) return undefined;
  return { text: text.slice(all.length), end: least === undefined ? 'upper' : 'lower', words: all };
}
