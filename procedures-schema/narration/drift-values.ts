/** Values, units and models that were heard otherwise than written, at the very place where the alignment laid them. */
import { convert, findQuantities, type Rational, toNumber, toText, unitOf } from '../quantities/index.ts';
import type { AlignedPassage, HeardToken, Take } from './alignment-model.ts';
import { normalText, stem, type Token } from './normal-words.ts';
import { UNIT_SAYINGS } from './unit-sayings.ts';

/** A take that was hardly heard says nothing about its values. */
export const LEAST_SURE = 0.3;
/** Lower: where the whole condition is left out, little of the passage is there. */
const LEAST_SURE_MODEL = 0.12;

export interface ValueDrift {
  readonly kind: 'other-value' | 'other-unit' | 'model-not-said';
  readonly actual: string;
  readonly expected: string;
  readonly heard?: HeardToken;
}

export function valueDrifts(one: AlignedPassage, take: Take, heard: readonly HeardToken[]): readonly ValueDrift[] {
  return [
    ...(take.confidence < LEAST_SURE ? [] : numbers(one, take, heard)),
    ...(take.confidence < LEAST_SURE_MODEL ? [] : models(one, take, heard)),
  ];
}

function numbers({ passage, tokens }: AlignedPassage, take: Take, heard: readonly HeardToken[]): ValueDrift[] {
  const out: ValueDrift[] = [];
  tokens.forEach((said, index) => {
    const other = heard[take.laidOn[index] ?? -1];
    if (said.kind !== 'number' || other?.kind !== 'number' || said.value === undefined || other.value === undefined) return;
    const same = toText(said.value) === toText(other.value);
    const units = [said.unit, other.unit];
    const unitsDiffer = units[0] !== undefined && units[1] !== undefined && units[0] !== units[1] && likely(units[1], units[0]);
    if (same && !unitsDiffer) return;
    if (convertsTo(other, said) || secondValue(other, passage.screen)) return;
    const place = { actual: told(other), expected: told(said), heard: other };
    out.push({ kind: same ? 'other-unit' : 'other-value', ...place });
  });
  return out;
}

const told = ({ value, unit }: Token): string => `${value === undefined ? '' : toText(value)}${unit === undefined ? '' : ` ${unit}`}`;

/** Forces and pressures are said for each other; a time for a pressure was misheard. */
const MIXED = /^(?:mass|force|torque|pressure)$/;

function likely(heard: string, said: string): boolean {
  const [a, b] = [unitOf(heard)?.kind ?? '', unitOf(said)?.kind ?? ''];
  return (a === b || (MIXED.test(a) && MIXED.test(b))) && !partOf(heard, said);
}

/** "newton" of "newton metres", "degrees" of "degrees Celsius": the rest was not heard. */
function partOf(heard: string, said: string): boolean {
  const words = (symbol: string): string[] => (UNIT_SAYINGS[symbol] ?? [symbol]).flatMap((saying) => saying.split(/[ -]/).map(stem));
  const whole = new Set(words(said));
  return words(heard).every((word) => whole.has(word));
}

/** The same amount in another unit, within what rounding leaves (hundredths). */
const ROUNDED = 1.2;

function convertsTo(heard: Token, said: Token): boolean {
  const [from, to] = [unitOf(heard.unit ?? ''), unitOf(said.unit ?? '')];
  if (!from || !to || from.symbol === to.symbol || from.kind !== to.kind) return false;
  const [a, b] = [toNumber(convert(heard.value as Rational, from, to)), toNumber(said.value as Rational)];
  return Math.abs(a - b) * 100 <= Math.abs(b) * ROUNDED;
}

/** The screen shows values in both units; whichever is read out is right. */
function secondValue(heard: Token, screen: readonly string[]): boolean {
  return screen.some((line) =>
    findQuantities(line).some(({ quantity, second }) =>
      [quantity, second?.quantity].some(
        (one) =>
          one !== undefined &&
          one.unit.symbol === heard.unit &&
          [one.nominal, one.lower, one.upper].some(
            (amount) => amount !== undefined && toText(amount.value) === toText(heard.value as Rational),
          ),
      ),
    ),
  );
}

/** Heard words before a take in which its model may have been named. */
const LEAD_IN = 4;

/** Not said is: neither the name nor the two words before it were heard in any form. One misheard name is no finding. */
function models({ passage, tokens }: AlignedPassage, take: Take, heard: readonly HeardToken[]): ValueDrift[] {
  const keys = passage.models.map((model) => normalText(model).tokens.map(({ key }) => key));
  if (keys.length === 0) return [];
  const near = heard.slice(Math.max(0, take.from - LEAD_IN), take.to).map(({ key }) => key);
  const named = (key: readonly string[]): boolean => key.every((one) => near.includes(one));
  if (keys.some(named)) return [];
  const places = keys.flatMap(([first]) => tokens.flatMap(({ key }, index) => (key === first ? [index] : [])));
  const expected = passage.models.join(', ');
  for (const at of places) {
    const other = heard[take.laidOn[at] ?? -1];
    if (other?.kind === 'name') return [{ kind: 'model-not-said', actual: other.key.slice(1).toUpperCase(), expected, heard: other }];
    if ([at - 2, at - 1, at].some((index) => (take.laidOn[index] ?? -1) !== -1)) return [];
  }
  return places.length === 0 ? [] : [{ kind: 'model-not-said', actual: 'no model', expected }];
}
