/** Quantities: what writers type, exact, converted, printed and compared. Exports only. */
export { type Dimension, dimensionOf, inUnit, type Measure, measureOf, product, quotient, sameDimension, total } from './dimension.ts';
export { compareDual, type DualVerdict } from './dual.ts';
export {
  type Attributes as ModelAttributes,
  type Evaluated,
  evaluate,
  type FormulaProblem,
  type FormulaResult,
  sameAttribute,
  toldAmount,
  unitFor,
} from './formula.ts';
export { type FormulaName, formulaNames } from './formula-names.ts';
export { HELPERS, type Helper } from './helpers.ts';
export { fineness, reaches, type UsableRange, usableRange } from './instrument.ts';
export { type Judged, judge } from './judge.ts';
export { limitQuantity } from './limit-words.ts';
export { type Limit, type LimitProblem, type Limits, limitFor, limitsFor, limitsOf } from './limits.ts';
export { type ComputedCell, type RowLimit, tableLimits } from './limits-table.ts';
export {
  holdsSerial,
  type LimitModel,
  limitModel,
  limitModels,
  type ModelRange,
  namedRange,
  rangeName,
  type SerialBounds,
} from './model-ranges.ts';
export { type DecimalMark, decimalMarkOf } from './numbers.ts';
export { findQuantities, inOrder, parseQuantity } from './parse.ts';
export { converted, type HouseUnits, otherUnit, printDual, printEnd, printQuantity } from './print.ts';
export type { Amount, FoundQuantity, Quantity } from './quantity.ts';
export * from './rational.ts';
export type { QuantityKind } from './unit-table.ts';
export { convert, NO_UNIT, sameKind, UNITS, type Unit, unitOf } from './units.ts';
