/** Runs a compiled pattern over a text: all ways at once, one unit of text at a time, so that the time is text length times program length. */
import type { Assertion, Instruction, Pattern } from './pattern.ts';
import { isWordUnit } from './pattern-parse.ts';

export interface PatternMatch {
  readonly start: number;
  readonly end: number;
  /** Start and end of each group; -1 where it took no part. The whole match is 0. */
  readonly groups: readonly number[];
}

interface Thread {
  readonly pc: number;
  readonly saved: readonly number[];
}

/** The first match that starts at `from` or later, the longest by the pattern's own order of preference. */
export function matchFrom(pattern: Pattern, text: string, from: number): PatternMatch | undefined {
  const { code, groups } = pattern;
  const empty = new Array<number>((groups + 1) * 2).fill(-1);
  const begins = beginningOf(pattern);
  const seen = new Int32Array(code.length).fill(-1);
  let current: Thread[] = [];
  let found: readonly number[] | undefined;
  for (let at = from; at <= text.length; at++) {
    if (current.length === 0) {
      if (found) break;
      while (begins && at < text.length && !begins(text.charCodeAt(at))) at++;
      if (begins && at >= text.length) break;
    }
    // A new start has the least right of all.
    if (!found) addThread(code, text, at, { pc: 0, saved: empty }, current, seen, at * 2);
    const unit = text.charCodeAt(at);
    const next: Thread[] = [];
    for (const thread of current) {
      const instruction = code[thread.pc];
      if (instruction?.op === 'match') {
        found = thread.saved;
        break;
      }
      if (instruction?.op === 'char' && at < text.length && instruction.matches(unit))
        addThread(code, text, at + 1, { pc: thread.pc + 1, saved: thread.saved }, next, seen, at * 2 + 1);
    }
    // The marks of the next unit's first additions are those made just now.
    for (let pc = 0; pc < seen.length; pc++) if (seen[pc] === at * 2 + 1) seen[pc] = (at + 1) * 2;
    current = next;
  }
  return found && { start: found[0] ?? 0, end: found[1] ?? 0, groups: found };
}

/** Follows everything that takes no text. Each instruction is added once a place; the first to come has the right. */
function addThread(
  code: readonly Instruction[],
  text: string,
  at: number,
  begin: Thread,
  list: Thread[],
  seen: Int32Array,
  mark: number,
): void {
  const stack: Thread[] = [begin];
  for (let thread = stack.pop(); thread; thread = stack.pop()) {
    const { pc, saved } = thread;
    if (seen[pc] === mark) continue;
    seen[pc] = mark;
    const instruction = code[pc];
    switch (instruction?.op) {
      case 'jump':
        stack.push({ pc: instruction.to, saved });
        break;
      case 'split':
        stack.push({ pc: instruction.second, saved }, { pc: instruction.first, saved });
        break;
      case 'save': {
        const next = saved.slice();
        next[instruction.slot] = at;
        stack.push({ pc: pc + 1, saved: next });
        break;
      }
      case 'assert':
        if (holds(instruction.kind, text, at)) stack.push({ pc: pc + 1, saved });
        break;
      default:
        list.push(thread);
    }
  }
}

function holds(kind: Assertion, text: string, at: number): boolean {
  if (kind === 'line start') return at === 0 || text[at - 1] === '\n' || text[at - 1] === '\r';
  if (kind === 'line end') return at === text.length || text[at] === '\n' || text[at] === '\r';
  const edge = isWordUnit(text.charCodeAt(at - 1)) !== isWordUnit(text.charCodeAt(at));
  return kind === 'word' ? edge : !edge;
}

const BEGINNINGS = new WeakMap<Pattern, ((unit: number) => boolean) | null>();

/** Whether a match may begin with a unit: most of a text is then skipped. Undefined where one may begin with nothing. */
function beginningOf(pattern: Pattern): ((unit: number) => boolean) | undefined {
  const known = BEGINNINGS.get(pattern);
  if (known !== undefined) return known ?? undefined;
  const tests: ((unit: number) => boolean)[] = [];
  const seen = new Set<number>();
  const stack = [0];
  let empty = false;
  for (let pc = stack.pop(); pc !== undefined; pc = stack.pop()) {
    if (seen.has(pc)) continue;
    seen.add(pc);
    const instruction = pattern.code[pc];
    if (instruction?.op === 'char') tests.push(instruction.matches);
    else if (instruction?.op === 'jump') stack.push(instruction.to);
    else if (instruction?.op === 'split') stack.push(instruction.first, instruction.second);
    else if (instruction?.op === 'match') empty = true;
    else stack.push(pc + 1);
  }
  const ascii = Array.from({ length: 128 }, (_, unit) => tests.some((test) => test(unit)));
  const made = empty ? null : (unit: number): boolean => (unit < 128 ? ascii[unit] === true : tests.some((test) => test(unit)));
  BEGINNINGS.set(pattern, made);
  return made ?? undefined;
}
