/** Finds quantities in prose and reads single ones: values, ranges, tolerances, one-sided limits, second values in brackets. */
import { type DecimalMark, numberAt } from './numbers.ts';
import type { Amount, FoundQuantity, Quantity } from './quantity.ts';
import { compare } from './rational.ts';
import { NO_UNIT, type Unit, unitAt } from './units.ts';

const AT_LEAST = /(?:\bat least|\bno less than|\bnot less than|\bmin(?:imum)?\.?|\bmore than|\bover|\babove|>=?|≥)\s*$/i;
const AT_MOST =
  /(?:\bat most|\bno more than|\bnot more than|\bup to|\bmax(?:imum)?\.?|\bless than|\bunder|\bbelow|\bnot over|\bnot above|<=?|≤)\s*$/i;
const AFTER_LEAST = /^\s*(?:min(?:imum)?\b\.?|or more\b|and up\b|and over\b|or longer\b)/i;
const AFTER_MOST = /^\s*(?:max(?:imum)?\b\.?|or less\b|or below\b|or shorter\b)/i;
const RANGE = /^\s*(?:to|and|through|-|–|—|\.\.\.|…)\s*/;
const PLUS_MINUS = /^\s*(?:±|\+\/-|\+\/−|\+-)\s*/;

/** All quantities with a unit, in order. Bare numbers are left out: they are labels, counts, document numbers. */
export function findQuantities(text: string, mark: DecimalMark = 'point'): readonly FoundQuantity[] {
  const all = FOUND[mark];
  const known = all.get(text);
  if (known) return known;
  const found = find(text, mark);
  if (all.size >= MOST_KNOWN) all.clear();
  all.set(text, found);
  return found;
}

/** Several checks ask the same of each sentence, and an edit leaves nearly all sentences as they are. */
const FOUND: Readonly<Record<DecimalMark, Map<string, readonly FoundQuantity[]>>> = { point: new Map(), comma: new Map() };
const MOST_KNOWN = 4000;

function find(text: string, mark: DecimalMark): readonly FoundQuantity[] {
  const out: FoundQuantity[] = [];
  let at = 0;
  while (at < text.length) {
    const start = nextNumber(text, at);
    if (start < 0) break;
    const found = quantityAt(text, start, mark);
    if (!found) {
      at = skipWord(text, start);
      continue;
    }
    const second = secondAt(text, found.end, mark) ?? bareSecond(text, found, mark);
    out.push(second ? { ...found, second } : found);
    at = second ? second.end : found.end;
  }
  return out;
}

/** A text that is one quantity and nothing else ("25 N·m", "min. 3 bar", "0.5 to 1.5 mm"), with or without unit. */
export function parseQuantity(text: string, mark: DecimalMark = 'point'): Quantity | undefined {
  const trimmed = text.trim();
  const start = nextNumber(trimmed, 0);
  if (start < 0) return undefined;
  const found = quantityAt(trimmed, start, mark, true);
  if (!found) return undefined;
  const before = trimmed.slice(0, found.at).trim();
  const second = bareSecond(trimmed, found, mark);
  const after = trimmed.slice(second ? second.end : found.end).trim();
  if (
    before !== '' ||
    (after !== '' && after !== '.' && !/^\([^)]*\)$/.test(after) && !/^(?:DC|AC|three-phase|single-phase)\b/.test(after))
  )
    return undefined;
  return found.quantity;
}

function nextNumber(text: string, from: number): number {
  for (let at = from; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    const digit = (code >= 48 && code <= 57) || '½¼¾⅛⅜⅝⅞⅓⅔⅕⅙'.includes(text.charAt(at));
    if (!digit) continue;
    const before = text.charAt(at - 1);
    // Inside a word ("M12", "OM-3120", "LT-500") it is a name, not a value.
    if (before !== '' && /[\p{L}\p{N}_#]/u.test(before)) {
      at = skipWord(text, at) - 1;
      continue;
    }
    if (/[-−–+]/.test(before)) {
      const earlier = text.charAt(at - 2);
      if (earlier === '' || /[\s(±:=,]/.test(earlier)) return at - 1;
      if (/[\p{L}]/u.test(earlier)) {
        at = skipWord(text, at) - 1;
        continue;
      }
    }
    if (/[.,]/.test(before) && /^$|[\s(]/.test(text.charAt(at - 2))) return at - 1;
    return at;
  }
  return -1;
}

function skipWord(text: string, at: number): number {
  let end = at + 1;
  while (end < text.length && /[\p{L}\p{N}_]/u.test(text.charAt(end))) end += 1;
  return end;
}

function quantityAt(
  text: string,
  start: number,
  mark: DecimalMark,
  bare = false,
): { quantity: Quantity; at: number; end: number } | undefined {
  const first = numberAt(text, start, mark);
  if (!first) return undefined;
  const unit = unitAfter(text, first.end);
  let end = unit ? unit.end : first.end;
  const rest = text.slice(end, end + 12);
  const plusMinus = PLUS_MINUS.exec(rest);
  if (plusMinus) {
    const tolerance = numberAt(text, end + plusMinus[0].length, mark);
    if (tolerance) {
      const after = unitAfter(text, tolerance.end);
      const used = after?.unit ?? unit?.unit;
      if (used || bare) {
        end = after ? after.end : tolerance.end;
        return made(text, start, end, {
          form: 'tolerance',
          nominal: first.amount,
          plus: tolerance.amount,
          minus: tolerance.amount,
          unit: used ?? NO_UNIT,
        });
      }
    }
  }
  const range = RANGE.exec(rest);
  if (range && !/^\s*and\b/.test(range[0])) {
    const second = numberAt(text, end + range[0].length, mark);
    const after = second ? unitAfter(text, second.end) : undefined;
    if (second && (after || (bare && second.end === text.length)) && (!unit || !after || unit.unit.symbol === after.unit.symbol))
      return ranged(text, start, after?.end ?? second.end, first.amount, second.amount, after?.unit ?? unit?.unit ?? NO_UNIT);
  }
  if (range && /^\s*and\b/.test(range[0]) && /\bbetween\s*$/i.test(text.slice(Math.max(0, start - 12), start))) {
    const second = numberAt(text, end + range[0].length, mark);
    const after = second ? unitAfter(text, second.end) : undefined;
    if (second && after) return ranged(text, start, after.end, first.amount, second.amount, after.unit);
  }
  if (!unit && !bare) return undefined;
  return oneSided(text, start, end, first.amount, unit?.unit ?? NO_UNIT);
}

function oneSided(text: string, start: number, end: number, amount: Amount, unit: Unit) {
  const before = text.slice(Math.max(0, start - 20), start);
  const after = text.slice(end, end + 12);
  const least = AT_LEAST.exec(before);
  const most = AT_MOST.exec(before);
  const lower = least && !/\b(?:not|no)\s+(?:more than|over|above)\s*$/i.test(before);
  if (lower) return made(text, start - least[0].length, end, { form: 'at least', lower: amount, unit });
  if (most && !/\b(?:not|no)\s+(?:less than|under|below)\s*$/i.test(before))
    return made(text, start - most[0].length, end, { form: 'at most', upper: amount, unit });
  const afterLeast = AFTER_LEAST.exec(after);
  if (afterLeast) return made(text, start, end + afterLeast[0].length, { form: 'at least', lower: amount, unit });
  const afterMost = AFTER_MOST.exec(after);
  if (afterMost) return made(text, start, end + afterMost[0].length, { form: 'at most', upper: amount, unit });
  return made(text, start, end, { form: 'single', nominal: amount, unit });
}

function ranged(text: string, start: number, end: number, lower: Amount, upper: Amount, unit: Unit) {
  return made(text, start, end, { form: 'range', lower, upper, unit });
}

function made(text: string, at: number, end: number, parts: Omit<Quantity, 'text'>): { quantity: Quantity; at: number; end: number } {
  return { quantity: { ...parts, text: text.slice(at, end) }, at, end };
}

function unitAfter(text: string, at: number): { unit: Unit; end: number } | undefined {
  const gap = /^(?:[ \u00a0\u202f\u2009]|-(?=[a-z]))?/.exec(text.slice(at, at + 1))?.[0].length ?? 0;
  const found = unitAt(text, at + gap);
  return found ? { unit: found.unit, end: at + gap + found.length } : undefined;
}

/** "(18 lbf·ft)" right after a value. */
function secondAt(text: string, end: number, mark: DecimalMark): FoundQuantity['second'] {
  const open = /^\s?\(\s?/.exec(text.slice(end, end + 3));
  if (!open) return undefined;
  const inner = quantityAt(text, end + open[0].length, mark);
  if (!inner || !/^\s?\)/.test(text.slice(inner.end, inner.end + 2))) return undefined;
  return { ...inner, end: inner.end + (text.slice(inner.end).indexOf(')') + 1) };
}

/** "80 bar 1160 psi": the second value of a bracket reference, whose brackets the prose has lost. Same quantity, other unit. */
function bareSecond(text: string, first: { quantity: Quantity; end: number }, mark: DecimalMark): FoundQuantity['second'] {
  const gap = /^\s/.exec(text.slice(first.end, first.end + 1));
  if (!gap) return undefined;
  const found = quantityAt(text, first.end + 1, mark);
  if (!found || found.at !== first.end + 1) return undefined;
  const { unit } = found.quantity;
  return unit.kind === first.quantity.unit.kind && unit.symbol !== first.quantity.unit.symbol && unit.kind !== 'time' ? found : undefined;
}

/** Lower limit not above upper. */
export function inOrder(quantity: Quantity): boolean {
  return !quantity.lower || !quantity.upper || compare(quantity.lower.value, quantity.upper.value) <= 0;
}
