/** Units made from the table: exact factors, and look-up of what a writer types. */
import { invariant } from '../invariant.ts';
import { add, divide, fromDecimal, multiply, type Rational, rational, subtract, ZERO } from './rational.ts';
import { type QuantityKind, UNIT_TABLE, type UnitRow } from './unit-table.ts';

export interface Unit {
  readonly symbol: string;
  readonly kind: QuantityKind;
  readonly factor: Rational;
  readonly offset: Rational;
  readonly system: UnitRow['system'];
  readonly meant?: UnitRow['meant'];
}

/** Counts and bare numbers. */
export const NO_UNIT: Unit = { symbol: '', kind: 'count', factor: rational(1), offset: ZERO, system: 'both' };

const BY_SPELLING = new Map<string, Unit>();
const BY_SYMBOL = new Map<string, Unit>();
/** Spellings by first character, longest first, so that "N·m" is found before "N". */
const BY_FIRST = new Map<string, { readonly text: string; readonly unit: Unit }[]>();

for (const row of UNIT_TABLE) {
  const unit: Unit = {
    symbol: row.symbol,
    kind: row.kind,
    factor: exact(row.factor),
    offset: row.offset === undefined ? ZERO : exact(row.offset),
    system: row.system,
    ...(row.meant ? { meant: row.meant } : {}),
  };
  BY_SYMBOL.set(row.symbol, unit);
  for (const text of [row.symbol, ...(row.also ?? [])]) {
    BY_SPELLING.set(text, unit);
    if (row.quiet) continue;
    const first = text.charAt(0);
    BY_FIRST.set(first, [...(BY_FIRST.get(first) ?? []), { text, unit }]);
  }
}
for (const list of BY_FIRST.values()) list.sort((a, b) => b.text.length - a.text.length || (a.text < b.text ? -1 : 1));

export function unitOf(symbol: string): Unit | undefined {
  return BY_SPELLING.get(symbol);
}

/** Every unit that is found in running text, in the table's order. */
export const UNITS: readonly Unit[] = UNIT_TABLE.filter((row) => !row.quiet).map((row) => BY_SYMBOL.get(row.symbol) as Unit);

/** Words that show that "in" before them is the preposition: "put 4 in the holes". */
const PREPOSITION =
  /^\s+(?:the|a|an|each|every|this|that|these|those|its|their|your|one|both|all|any|order|place|turn|line|case|use|front|reverse|sequence|position|total|all)\b/i;

/** The unit that starts at `at`, if what follows ends it. */
export function unitAt(text: string, at: number): { readonly unit: Unit; readonly length: number } | undefined {
  for (const { text: spelling, unit } of BY_FIRST.get(text.charAt(at)) ?? []) {
    if (!text.startsWith(spelling, at)) continue;
    const after = text.slice(at + spelling.length, at + spelling.length + 24);
    const last = spelling.charAt(spelling.length - 1);
    if (/[\p{L}\p{N}]/u.test(last) && /^[\p{L}\p{N}²³/·⋅]/u.test(after)) continue;
    if (/^(?:in|in\.)$/.test(spelling) && PREPOSITION.test(after)) continue;
    // "in." at the end of a sentence keeps the sentence's full stop.
    if (spelling === 'in.' && (after === '' || /^\s+\p{Lu}/u.test(after))) continue;
    return { unit, length: spelling.length };
  }
  return undefined;
}

/** Same quantity, so that one can be converted into the other. A temperature interval is no temperature. */
export function sameKind(a: Unit, b: Unit): boolean {
  return a.kind === b.kind;
}

export function toBase(value: Rational, unit: Unit): Rational {
  return add(multiply(value, unit.factor), unit.offset);
}

export function fromBase(value: Rational, unit: Unit): Rational {
  return divide(subtract(value, unit.offset), unit.factor);
}

/** Exact. For temperatures `interval` leaves the offset out: ±9 °F is ±5 °C. */
export function convert(value: Rational, from: Unit, to: Unit, interval = false): Rational {
  invariant(sameKind(from, to), `${from.symbol} and ${to.symbol} measure different quantities`);
  if (interval) return divide(multiply(value, from.factor), to.factor);
  return fromBase(toBase(value, from), to);
}

function exact(text: string): Rational {
  const [n, d] = text.split('/');
  const value = d === undefined ? fromDecimal(n ?? '') : rational(BigInt(n ?? '0'), BigInt(d));
  invariant(value, `the unit table has a bad factor "${text}"`);
  return value;
}
