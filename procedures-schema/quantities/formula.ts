/**
 * Formulas over model attributes: "1.6 % of span", "25 N + 4 N per belt", "belt deflection(span), to 0.5 mm". Exact, with dimensions: a sum
 * of millimetres and newtons has no value. What an attribute is worth, the caller says; where the result is used is limits.ts.
 */
import { foldText } from '../format/index.ts';
import { dimensionOf, inUnit, type Measure, measureOf, NONE, product, quotient, sameDimension, total } from './dimension.ts';
import { HELPERS, takesDimension } from './helpers.ts';
import { type DecimalMark, numberAt } from './numbers.ts';
import { parseQuantity } from './parse.ts';
import type { Amount, Quantity } from './quantity.ts';
import { divide, fromDecimal, multiply, negate, type Rational, type Rounding, rational, toDecimal } from './rational.ts';
import { NO_UNIT, UNITS, type Unit, unitAt } from './units.ts';

/** Attributes of a model as typed ("820 mm", "3"), by name. */
export type Attributes = Readonly<Record<string, string>>;

export interface FormulaProblem {
  readonly kind: 'form' | 'unknown name' | 'dimension' | 'no value';
  /** The words concerned. */
  readonly text: string;
  readonly at: number;
  readonly nearest?: string;
}

export interface FormulaResult {
  readonly measure: Measure;
  /** Units met, typed ones first: what the result is told in. */
  readonly units: readonly Unit[];
  /** Attributes used. */
  readonly uses: readonly string[];
  /** "to 0.5 mm": what it is rounded to. */
  readonly step?: Quantity;
}

export type Evaluated = { readonly result: FormulaResult } | { readonly problem: FormulaProblem };

/** Longer than any formula somebody would print beside a table. */
const LONGEST = 400;

export function evaluate(text: string, attributes: Attributes, mark: DecimalMark = 'point'): Evaluated {
  if (text.length > LONGEST) return { problem: { kind: 'form', text: text.slice(0, 40), at: 0 } };
  const rounding = /,\s*to\s+((?:[^,]|,(?=\d))+)$/i.exec(text);
  const step = rounding?.[1] === undefined ? undefined : parseQuantity(rounding[1], mark);
  if (rounding && (step?.nominal === undefined || step.nominal.value.n <= 0n))
    return { problem: { kind: 'form', text: rounding[0], at: rounding.index } };
  const reader = new Reader(rounding ? text.slice(0, rounding.index) : text, attributes, mark);
  try {
    const measure = reader.whole();
    return { result: { measure, units: reader.units, uses: reader.uses, ...(step ? { step } : {}) } };
  } catch (error) {
    if (error instanceof Stopped) return { problem: error.problem };
    throw error;
  }
}

/** Carries a problem out of the recursion; never leaves this file. */
class Stopped extends Error {
  readonly problem: FormulaProblem;
  constructor(problem: FormulaProblem) {
    super(problem.kind);
    this.problem = problem;
  }
}

class Reader {
  readonly units: Unit[] = [];
  readonly uses: string[] = [];
  private at = 0;
  private depth = 0;
  /** A reading of a temperature scale was met: nothing can be added to it or multiplied with it here, for 5 °C are not 5 K. */
  private scale = false;
  private readonly text: string;
  private readonly attributes: Attributes;
  private readonly mark: DecimalMark;

  constructor(text: string, attributes: Attributes, mark: DecimalMark) {
    this.text = text;
    this.attributes = attributes;
    this.mark = mark;
  }

  whole(): Measure {
    const measure = this.sum();
    this.blanks();
    if (this.at < this.text.length) this.stop('form', this.text.slice(this.at));
    return measure;
  }

  private stop(kind: FormulaProblem['kind'], text: string, nearest?: string): never {
    throw new Stopped({ kind, text: text.trim(), at: this.at, ...(nearest === undefined ? {} : { nearest }) });
  }

  private blanks(): void {
    while (/\s/.test(this.text.charAt(this.at)) && this.at < this.text.length) this.at += 1;
  }

  /** Takes a sign or word if it stands here. */
  private take(pattern: RegExp): string | undefined {
    this.blanks();
    const found = pattern.exec(this.text.slice(this.at));
    if (found?.index !== 0 || found[0] === '') return undefined;
    this.at += found[0].length;
    return found[0];
  }

  private sum(): Measure {
    this.depth += 1;
    if (this.depth > 40) this.stop('form', this.text);
    let left = this.term();
    for (;;) {
      const from = this.at;
      const sign = this.take(/^[+\-−–]/);
      if (sign === undefined) break;
      const right = this.term();
      this.notOnAScale(from);
      const both = total(left, sign === '+' ? right : { ...right, value: negate(right.value) });
      if (both === undefined) this.stop('dimension', this.text.slice(from, this.at));
      left = both as Measure;
    }
    this.depth -= 1;
    return left;
  }

  private term(): Measure {
    let left = this.factor();
    for (;;) {
      const from = this.at;
      const sign = this.take(/^(?:[*×·/]|of\b|per\b)/i)?.toLowerCase();
      if (sign === undefined) return left;
      const right = this.factor();
      this.notOnAScale(from);
      // "4 N per belt" is four newtons for each of them: times their count.
      if (sign === 'per' && !sameDimension(right.dimension, NONE)) this.stop('dimension', this.text.slice(from, this.at));
      const made = sign === '/' ? quotient(left, right) : product(left, right);
      if (made === undefined) this.stop('no value', this.text.slice(from, this.at));
      left = made as Measure;
    }
  }

  private notOnAScale(from: number): void {
    if (this.scale) this.stop('dimension', this.text.slice(from, this.at));
  }

  private factor(): Measure {
    this.blanks();
    if (this.take(/^[-−]/) !== undefined) {
      const value = this.factor();
      return { ...value, value: negate(value.value) };
    }
    if (this.take(/^\(/) !== undefined) {
      const inside = this.sum();
      if (this.take(/^\)/) === undefined) this.stop('form', this.text.slice(this.at) || ')');
      return this.power(inside);
    }
    const number = numberAt(this.text, this.at, this.mark);
    if (number) {
      this.at = number.end;
      const blanks = /^\s*/.exec(this.text.slice(this.at))?.[0].length ?? 0;
      const unit = unitAt(this.text, this.at + blanks);
      if (!unit) return this.power({ value: number.amount.value, dimension: NONE });
      this.at += blanks + unit.length;
      this.units.push(unit.unit);
      if (unit.unit.offset.n !== 0n) this.scale = true;
      return this.power(measureOf(number.amount.value, unit.unit));
    }
    return this.named();
  }

  private power(base: Measure): Measure {
    const raised = this.take(/^(?:\^\s*[23]|[²³])/);
    if (raised === undefined) return base;
    const squared = product(base, base);
    return /[3³]/.test(raised) ? product(squared, base) : squared;
  }

  private named(): Measure {
    const rest = this.text.slice(this.at);
    const words = /^[\p{L}][\p{L}\p{N}'-]*(?:\s+[\p{L}][\p{L}\p{N}'-]*)*/u.exec(rest)?.[0] ?? '';
    if (words === '') this.stop('form', rest === '' ? this.text : rest);
    const parts = words.split(/\s+/);
    for (let count = parts.length; count > 0; count -= 1) {
      const name = parts.slice(0, count).join(' ');
      const length = new RegExp(`^${parts.slice(0, count).map(escaped).join('\\s+')}`, 'u').exec(rest)?.[0].length ?? 0;
      const known = attributeNamed(name, this.attributes);
      if (known !== undefined) {
        this.at += length;
        return this.power(this.attribute(known));
      }
      const helper = Object.keys(HELPERS).find((one) => foldText(one) === foldText(name));
      if (helper !== undefined && /^\s*\(/.test(rest.slice(length))) {
        this.at += length;
        return this.call(helper);
      }
    }
    const names = [...Object.keys(this.attributes), ...Object.keys(HELPERS)];
    return this.stop('unknown name', words.replace(/\s+(?:of|per)\b.*$/i, ''), nearestOf(words, names));
  }

  private attribute(name: string): Measure {
    const typed = this.attributes[name] as string;
    const quantity = parseQuantity(typed, this.mark);
    const value = quantity?.nominal;
    if (!quantity || !value) this.stop('no value', `${name}: ${typed}`);
    if (!this.uses.includes(name)) this.uses.push(name);
    const { unit } = quantity as Quantity;
    if (unit.symbol !== '') this.units.push(unit);
    if (unit.offset.n !== 0n) this.scale = true;
    return measureOf((value as Amount).value, unit);
  }

  private call(name: string): Measure {
    const helper = HELPERS[name] as (typeof HELPERS)[string];
    this.take(/^\(/);
    const given: Measure[] = [];
    for (;;) {
      given.push(this.sum());
      if (this.take(/^[;,]/) === undefined) break;
    }
    if (this.take(/^\)/) === undefined) this.stop('form', this.text.slice(this.at) || ')');
    if (given.length !== helper.takes.length) this.stop('form', `${name} takes ${helper.takes.map((one) => one.name).join('; ')}`);
    helper.takes.forEach((one, index) => {
      if (!sameDimension((given[index] as Measure).dimension, takesDimension(one.kind))) this.stop('dimension', `${name}: ${one.name}`);
    });
    const made = helper.compute(...given);
    if (made === undefined) this.stop('no value', name);
    return this.power(made as Measure);
  }
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** Case folded; "per belt" finds "belts". */
export function attributeNamed(name: string, attributes: Attributes): string | undefined {
  return Object.keys(attributes).find((one) => sameAttribute(one, name));
}

export function sameAttribute(one: string, other: string): boolean {
  const [a, b] = [foldText(one), foldText(other)];
  return a === b || a === `${b}s` || `${a}s` === b;
}

function nearestOf(name: string, names: readonly string[]): string | undefined {
  const letters = new Set(foldText(name));
  let best: string | undefined;
  let most = 0.6;
  for (const one of names) {
    const other = new Set(foldText(one));
    const shared = [...letters].filter((letter) => other.has(letter)).length / Math.max(letters.size, other.size);
    if (shared > most) [best, most] = [one, shared];
  }
  return best;
}

// ---------------------------------------------------------------- telling the result

const USUAL = ['mm', 'N', 'N·m', 'bar', 's', 'kg', 'V', 'A', 'Ω', 'kW', 'L/min', 'm/s', 'r/min', '°', '%', 'dB', 'mL', 'mm²', 'N/mm', 'µF'];

/** The unit a result is told in: what it is rounded to, the first unit met that fits, the usual one. undefined: no unit has that dimension. */
export function unitFor({ measure, units, step }: FormulaResult): Unit | undefined {
  const usual = USUAL.flatMap((symbol) => UNITS.find((unit) => unit.symbol === symbol) ?? []);
  return [...(step ? [step.unit] : []), ...units, NO_UNIT, ...usual, ...UNITS].find((unit) =>
    sameDimension(dimensionOf(unit), measure.dimension),
  );
}

/** Rounded to what the formula says, else to so many digits that count. A lower limit is rounded up, an upper one down. */
export function toldAmount(result: FormulaResult, unit: Unit, rounding: Rounding, digits = 3, least = 0): Amount | undefined {
  const value = inUnit(result.measure, unit);
  if (value === undefined) return undefined;
  const step = result.step && inUnit(measureOf(result.step.nominal?.value as Rational, result.step.unit, true), unit, true);
  if (step !== undefined) {
    const count = fromDecimal(toDecimal(divide(value, step), 0, rounding)) as Rational;
    const rounded = multiply(count, step);
    return { value: rounded, step, text: toDecimal(rounded, Math.max(least, decimalsOf(step))) };
  }
  const whole = toDecimal(value, 0, 'down').replace(/^-/, '');
  const wanted = Math.max(0, value.n === 0n ? 0 : whole === '0' ? leadingZeros(value) + digits : digits - whole.length);
  // "6 N + 2 N" is 8 N and not 8.00 N: what comes out whole has no noughts that nobody wrote.
  const decimals = Math.max(least, fewestDecimals(value, wanted));
  const text = toDecimal(value, decimals, rounding);
  return { value: fromDecimal(text) as Rational, step: rational(1n, 10n ** BigInt(decimals)), text };
}

/** Noughts after the point before the first digit that counts. */
function leadingZeros(value: Rational): number {
  if (value.n === 0n) return 0;
  let count = 0;
  let n = (value.n < 0n ? -value.n : value.n) * 10n;
  while (n < value.d && count < 20) {
    n *= 10n;
    count += 1;
  }
  return count;
}

/** Decimals that say the value without loss, at most `most`. */
function fewestDecimals(value: Rational, most: number): number {
  for (let decimals = 0; decimals < most; decimals += 1) if ((value.n * 10n ** BigInt(decimals)) % value.d === 0n) return decimals;
  return most;
}

/** Decimals that a step needs: 1 for 0.5, 0 for 2. */
function decimalsOf(step: Rational): number {
  for (let decimals = 0; decimals < 12; decimals += 1) {
    const scale = 10n ** BigInt(decimals);
    if ((step.n * scale) % step.d === 0n) return decimals;
  }
  return 12;
}
