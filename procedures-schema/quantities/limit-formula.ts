/** One end of a limit from its words, worked out on one model or range of serial numbers. What the end is compared with is limits.ts. */
import { foldText } from '../format/index.ts';
import { inUnit } from './dimension.ts';
import { evaluate, toldAmount, unitFor } from './formula.ts';
import { type LimitModel, type ModelRange, rangeName } from './model-ranges.ts';
import type { DecimalMark } from './numbers.ts';
import { parseQuantity } from './parse.ts';
import type { Amount } from './quantity.ts';
import type { Unit } from './units.ts';

/** Kinds of trouble with a formula; `names` are the formula, the words concerned, the model, and the nearest name if there is one. */
export interface FormulaTrouble {
  readonly kind: 'formula' | 'formula name' | 'formula dimension' | 'formula value' | 'formula unit';
  readonly names: readonly string[];
}

/** Words that are no quantity but hold a product or a call, or name an attribute: "1.6 % of span", "rod diameter". */
export function isFormula(text: string, models: readonly LimitModel[], mark: DecimalMark): boolean {
  if (parseQuantity(text, mark)) return false;
  if (/\d.*[*×]|[*×].*\d/.test(text)) return true;
  if (!/\p{L}{2,}/u.test(text)) return false;
  if (/\d|\(/.test(text)) return true;
  const folded = foldText(text);
  return models.some(({ ranges }) => ranges.some(({ attributes }) => Object.keys(attributes).some((name) => foldText(name) === folded)));
}

const TOLD = {
  form: 'formula',
  'unknown name': 'formula name',
  dimension: 'formula dimension',
  'no value': 'formula value',
} as const;

/** Of a number as it is printed. */
export const decimalsTold = (amount: Amount | undefined): number => /[.,](\d+)$/.exec(amount?.text ?? '')?.[1]?.length ?? 0;

/** Told in `wanted` where it is given, with at least so many decimals. A limit that was computed is never looser than what it was computed from. */
export function computedEnd(
  text: string,
  end: 'lower' | 'upper',
  on: { readonly model: LimitModel; readonly range: ModelRange },
  wanted: Unit | undefined,
  mark: DecimalMark,
  least = 0,
): { readonly amount: Amount; readonly unit: Unit } | { readonly trouble: FormulaTrouble } {
  const name = rangeName(on.model.name, on.range.serial);
  const evaluated = evaluate(text, on.range.attributes, mark);
  if ('problem' in evaluated) {
    const { kind, text: words, nearest } = evaluated.problem;
    return { trouble: { kind: TOLD[kind], names: [text, words, name, ...(nearest === undefined ? [] : [nearest])] } };
  }
  const { result } = evaluated;
  const own = unitFor(result);
  if (own === undefined) return { trouble: { kind: 'formula dimension', names: [text, text, name] } };
  if (wanted !== undefined && inUnit(result.measure, wanted) === undefined)
    return { trouble: { kind: 'formula unit', names: [text, wanted.symbol, name, own.kind] } };
  const unit = wanted ?? own;
  const amount = toldAmount(result, unit, end === 'lower' ? 'up' : 'down', 3, least);
  return amount === undefined ? { trouble: { kind: 'formula unit', names: [text, unit.symbol, name] } } : { amount, unit };
}
