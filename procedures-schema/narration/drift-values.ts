/** Values, units and models that were heard otherwise than written, at the very place where the alignment laid them. */
import { convert, type DecimalMark, findQuantities, type Rational, toNumber, toText, unitOf } from '../quantities/index.ts';
import type { AlignedPassage, Alignment, HeardToken, Take } from './alignment-model.ts';
import { normalText, stem, type Token } from './normal-words.ts';
import { clauseTokens } from './passage-words.ts';
import { UNIT_SAYINGS } from './unit-sayings.ts';

/** Below this share of its words nothing is read from a take: what was laid on what is chance. */
const LEAST_HEARD = 0.12;

export interface ValueDrift {
  readonly kind: 'other-value' | 'other-unit' | 'model-not-said';
  readonly actual: string;
  readonly expected: string;
  readonly heard?: HeardToken;
}

export function valueDrifts(one: AlignedPassage, take: Take, alignment: Alignment): readonly ValueDrift[] {
  return take.confidence < LEAST_HEARD ? [] : [...numbers(one, take, alignment), ...models(one, take, alignment)];
}

function numbers({ passage, tokens }: AlignedPassage, take: Take, { heard, script }: Alignment): ValueDrift[] {
  const out: ValueDrift[] = [];
  tokens.forEach((said, index) => {
    const other = heard[take.laidOn[index] ?? -1];
    if (said.kind !== 'number' || other?.kind !== 'number' || said.value === undefined || other.value === undefined) return;
    const same = toText(said.value) === toText(other.value);
    const units = [said.unit, other.unit];
    const unitsDiffer = units[0] !== undefined && units[1] !== undefined && units[0] !== units[1] && likely(units[1], units[0]);
    if (same && !unitsDiffer) return;
    if (convertsTo(other, said) || (other.unit !== said.unit && secondValue(other, passage.screen, script.mark))) return;
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

/** The screen shows values in both units; whichever is read out is right. In the unit of the text it may be the limit of another model. */
function secondValue(heard: Token, screen: readonly string[], mark?: DecimalMark): boolean {
  return screen.some((line) =>
    findQuantities(line, mark).some(({ quantity, second }) =>
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

/** Words that stand where a condition should, from which on it was said and misheard. */
const MISHEARD_CLAUSE = 2;

/** Not said is: no form of the condition was heard. One misheard name is no finding. */
function models(one: AlignedPassage, take: Take, alignment: Alignment): ValueDrift[] {
  const { passage, tokens } = one;
  const { heard } = alignment;
  const keys = passage.models.map((model) => normalText(model).tokens.map(({ key }) => key));
  if (keys.length === 0) return [];
  const clause = clauseTokens(passage);
  const from = clause === 0 ? take.from : afterLast(take, alignment);
  const near = heard.slice(from, take.to).map(({ key }) => key);
  if (keys.some((key) => key.every((part) => near.includes(part)))) return [];
  const expected = passage.models.join(', ');
  const places = keys.flatMap(([first]) => tokens.flatMap(({ key }, index) => (key === first ? [index] : [])));
  if (places.length === 0) return [];
  const body = clause === 0 ? take.to : (take.laidOn.slice(clause).find((at) => at !== -1) ?? take.to);
  const other = heard.slice(from, body).find(({ kind, key }) => kind === 'name' && !keys.some(([first]) => first?.startsWith(key)));
  if (other) return [{ kind: 'model-not-said', actual: other.key.slice(1).toUpperCase(), expected, heard: other }];
  const said =
    clause === 0
      ? places.some((at) => [at - 2, at - 1, at].some((index) => (take.laidOn[index] ?? -1) !== -1))
      : body - from >= MISHEARD_CLAUSE || heard.slice(from, body).some(({ key }) => key === tokens[0]?.key);
  return said ? [] : [{ kind: 'model-not-said', actual: 'no model', expected }];
}

/** The first heard word that the take before does not account for. */
function afterLast(take: Take, { takes }: Alignment): number {
  const before = takes[takes.indexOf(take) - 1];
  return before?.to === take.from ? Math.max(...before.laidOn, before.from) + 1 : take.from;
}
