/** Runs a compiled pattern over a text: all ways at once, one unit of text at a time, so that the time is text length times program length. */
import { type Instruction, isWordUnit, type Pattern } from './pattern.ts';

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
  const first = firstLiteral(code);
  const seen = new Int32Array(code.length).fill(-1);
  let current: Thread[] = [];
  let found: readonly number[] | undefined;
  for (let at = from; at <= text.length; at++) {
    if (current.length === 0) {
      if (found) break;
      if (first !== undefined) {
        const next = text.indexOf(first, at);
        if (next === -1) break;
        at = next;
      }
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

function holds(kind: Extract<Instruction, { op: 'assert' }>['kind'], text: string, at: number): boolean {
  if (kind === 'line start') return at === 0 || text[at - 1] === '\n' || text[at - 1] === '\r';
  if (kind === 'line end') return at === text.length || text[at] === '\n' || text[at] === '\r';
  const edge = isWordUnit(text.charCodeAt(at - 1)) !== isWordUnit(text.charCodeAt(at));
  return kind === 'word' ? edge : !edge;
}

/** The unit every match begins with, where there is one: most of a text is then skipped. */
function firstLiteral(code: readonly Instruction[]): string | undefined {
  const second = code[1];
  return second?.op === 'char' && second.literal !== undefined ? String.fromCharCode(second.literal) : undefined;
}
