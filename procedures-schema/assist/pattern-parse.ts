/** The notation of a search pattern, read into a tree. What is not known is refused with a sentence; running it is for others. */
import { type Assertion, PatternError } from './pattern.ts';

export type Node =
  | { readonly kind: 'char'; readonly matches: (unit: number) => boolean; readonly literal?: number }
  | { readonly kind: 'assert'; readonly assert: Assertion }
  | { readonly kind: 'all'; readonly of: readonly Node[] }
  | { readonly kind: 'any'; readonly of: readonly Node[] }
  | { readonly kind: 'group'; readonly of: Node; readonly number?: number }
  | { readonly kind: 'repeat'; readonly of: Node; readonly least: number; readonly most: number; readonly lazy: boolean };

export class Parser {
  groups = 0;
  private at = 0;
  private depth = 0;
  private readonly source: string;
  private readonly ignoreCase: boolean;

  constructor(source: string, ignoreCase: boolean) {
    this.source = source;
    this.ignoreCase = ignoreCase;
  }

  whole(): Node {
    const node = this.alternatives();
    if (this.at < this.source.length) throw new PatternError('A closing ")" has no opening "(".');
    return node;
  }

  private peek(): string {
    return this.source[this.at] ?? '';
  }

  private alternatives(): Node {
    if (++this.depth > 100) throw new PatternError('The pattern is nested too deeply.');
    const of = [this.sequence()];
    while (this.peek() === '|') {
      this.at++;
      of.push(this.sequence());
    }
    this.depth--;
    return of.length === 1 ? (of[0] as Node) : { kind: 'any', of };
  }

  private sequence(): Node {
    const of: Node[] = [];
    while (this.at < this.source.length && this.peek() !== '|' && this.peek() !== ')') of.push(this.repeated());
    return { kind: 'all', of };
  }

  private repeated(): Node {
    let node = this.atom();
    for (;;) {
      const times = this.times();
      if (!times) return node;
      if (node.kind === 'assert') throw new PatternError('A place such as ^ or \\b cannot be repeated.');
      const lazy = this.peek() === '?';
      if (lazy) this.at++;
      node = { kind: 'repeat', of: node, ...times, lazy };
    }
  }

  private times(): { readonly least: number; readonly most: number } | undefined {
    const sign = this.peek();
    const simple = { '*': [0, Number.POSITIVE_INFINITY], '+': [1, Number.POSITIVE_INFINITY], '?': [0, 1] }[sign];
    if (simple) {
      this.at++;
      return { least: simple[0] as number, most: simple[1] as number };
    }
    const counted = /^\{(\d{1,4})(?:(,)(\d{1,4})?)?\}/.exec(this.source.slice(this.at, this.at + 12));
    if (!counted) return undefined;
    this.at += counted[0].length;
    const least = Number(counted[1]);
    const most = counted[2] === undefined ? least : counted[3] === undefined ? Number.POSITIVE_INFINITY : Number(counted[3]);
    if (most < least) throw new PatternError(`In ${counted[0]} the second number is less than the first.`);
    return { least, most };
  }

  private atom(): Node {
    const c = this.peek();
    this.at++;
    switch (c) {
      case '(':
        return this.group();
      case '[':
        return this.set();
      case '.':
        return { kind: 'char', matches: (unit) => unit !== 10 && unit !== 13 && unit !== 0x2028 && unit !== 0x2029 };
      case '^':
        return { kind: 'assert', assert: 'line start' };
      case '$':
        return { kind: 'assert', assert: 'line end' };
      case '\\':
        return this.escape();
      case '*':
      case '+':
      case '?':
        throw new PatternError(`Nothing stands before "${c}" to be repeated. Write \\${c} for the sign itself.`);
      default:
        return this.literal(c.charCodeAt(0));
    }
  }

  private group(): Node {
    let number: number | undefined;
    if (this.source.startsWith('?:', this.at)) this.at += 2;
    else if (this.peek() === '?') throw new PatternError('Looking ahead or behind, and named groups, are not known here.');
    else number = ++this.groups;
    const of = this.alternatives();
    if (this.peek() !== ')') throw new PatternError('An opening "(" has no closing ")".');
    this.at++;
    return { kind: 'group', of, ...(number === undefined ? {} : { number }) };
  }

  private literal(unit: number): Node {
    if (!this.ignoreCase) return { kind: 'char', matches: (other) => other === unit, literal: unit };
    const folded = foldUnit(unit);
    return { kind: 'char', matches: (other) => other === unit || foldUnit(other) === folded };
  }

  private escape(): Node {
    const c = this.peek();
    if (c === '') throw new PatternError('The pattern ends in a backslash.');
    this.at++;
    if (c === 'b') return { kind: 'assert', assert: 'word' };
    if (c === 'B') return { kind: 'assert', assert: 'not word' };
    if (/[1-9]/.test(c)) throw new PatternError('Referring back to a group inside the pattern is not known here.');
    const known = CLASSES[c];
    if (known) return { kind: 'char', matches: known };
    const sign = SIGNS[c];
    if (sign !== undefined) return this.literal(sign);
    if (/[A-Za-z]/.test(c)) throw new PatternError(`\\${c} is not known here.`);
    return this.literal(c.charCodeAt(0));
  }

  private set(): Node {
    const not = this.peek() === '^';
    if (not) this.at++;
    const tests: ((unit: number) => boolean)[] = [];
    const start = this.at;
    for (;;) {
      const c = this.peek();
      if (c === '') throw new PatternError('An opening "[" has no closing "]".');
      if (c === ']' && this.at > start) break;
      this.at++;
      const low = c === '\\' ? this.inSet() : c.charCodeAt(0);
      if (typeof low !== 'number') {
        tests.push(low);
        continue;
      }
      if (this.peek() === '-' && this.source[this.at + 1] !== ']' && this.source[this.at + 1] !== undefined) {
        this.at++;
        const sign = this.peek();
        this.at++;
        const high = sign === '\\' ? this.inSet() : sign.charCodeAt(0);
        if (typeof high !== 'number' || high < low) throw new PatternError(`The range from "${c}" to "${sign}" is none.`);
        tests.push((unit) => low <= unit && unit <= high);
      } else tests.push((unit) => unit === low);
    }
    this.at++;
    const fold = this.ignoreCase;
    const inside = (unit: number): boolean => tests.some((test) => test(unit) || (fold && (test(foldUnit(unit)) || test(raiseUnit(unit)))));
    return { kind: 'char', matches: not ? (unit) => !inside(unit) : inside };
  }

  private inSet(): number | ((unit: number) => boolean) {
    const c = this.peek();
    this.at++;
    const known = CLASSES[c];
    if (known) return known;
    if (c === '') throw new PatternError('An opening "[" has no closing "]".');
    return SIGNS[c] ?? c.charCodeAt(0);
  }
}

const isDigit = (unit: number): boolean => unit >= 48 && unit <= 57;
const isSpace = (unit: number): boolean => /\s/.test(String.fromCharCode(unit));
/** Letters of any script, so that \b and \w treat "Ölstand" as one word. */
export const isWordUnit = (unit: number): boolean =>
  isDigit(unit) ||
  unit === 95 ||
  (unit >= 65 && unit <= 90) ||
  (unit >= 97 && unit <= 122) ||
  (unit > 127 && /\p{L}|\p{N}|\p{M}/u.test(String.fromCharCode(unit)));

const CLASSES: Readonly<Record<string, (unit: number) => boolean>> = {
  d: isDigit,
  D: (unit) => !isDigit(unit),
  s: isSpace,
  S: (unit) => !isSpace(unit),
  w: isWordUnit,
  W: (unit) => !isWordUnit(unit),
};
const SIGNS: Readonly<Record<string, number>> = { n: 10, r: 13, t: 9 };

export function foldUnit(unit: number): number {
  if (unit < 128) return unit >= 65 && unit <= 90 ? unit + 32 : unit;
  const lower = String.fromCharCode(unit).toLowerCase();
  return lower.length === 1 ? lower.charCodeAt(0) : unit;
}

function raiseUnit(unit: number): number {
  const upper = String.fromCharCode(unit).toUpperCase();
  return upper.length === 1 ? upper.charCodeAt(0) : unit;
}
