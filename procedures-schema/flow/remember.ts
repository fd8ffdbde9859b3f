/**
 * The search with as few remembered facts as it needs: facts start unremembered, free each time they are asked, and one that a walk
 * answered in two ways is remembered and all is searched again. What is left is what a search that remembers all would say, with far
 * fewer states. semantics.md 22. The walking is solve.ts.
 */
import type { Instruction, Program } from './code.ts';
import { type Solved, type SolveInput, solve } from './solve.ts';

/** `make` gives the search its facts: those to remember, by key. */
export function search(program: Program, make: (remembered: ReadonlySet<string>) => SolveInput): Solved {
  const all = factsOf(program.code.keys(), program);
  let remembered = new Set(all.size === 0 ? [] : factsInCircles(program));
  for (;;) {
    const solved = solve(make(remembered));
    if (solved.bounded || remembered.size === all.size) return solved;
    // Where a walk is lost early or late depends on what it answered before it comes to the circle.
    const lost = solved.found.some(({ breach }) => breach.rule === 'no-way-out');
    const more = lost ? all : solved.doubts;
    const size = remembered.size;
    remembered = new Set([...remembered, ...more]);
    if (remembered.size === size) return solved;
  }
}

function factsOf(nodes: Iterable<number>, program: Program): Set<string> {
  const out = new Set<string>();
  for (const node of nodes) {
    const instruction = program.code[node];
    if (instruction?.op === 'branch' && instruction.condition.kind === 'fact') out.add(instruction.condition.key);
  }
  return out;
}

/** Whether a walk comes out of a circle must not hang on an answer that changes: facts asked in one are remembered from the start. */
function factsInCircles(program: Program): Set<string> {
  return factsOf(inCircles(program.code), program);
}

/** Instructions that lie on a circle: strongly connected components by Tarjan, "Depth-first search and linear graph algorithms", 1972. */
function inCircles(code: readonly Instruction[]): number[] {
  const order = new Int32Array(code.length).fill(-1);
  const low = new Int32Array(code.length);
  const onStack = new Uint8Array(code.length);
  const stack: number[] = [];
  const out: number[] = [];
  let count = 0;
  for (let root = 0; root < code.length; root += 1) {
    if (order[root] !== -1) continue;
    const work: { node: number; next: readonly number[]; at: number }[] = [];
    const begin = (node: number): void => {
      order[node] = low[node] = count;
      count += 1;
      stack.push(node);
      onStack[node] = 1;
      work.push({ node, next: nextOf(code[node] as Instruction), at: 0 });
    };
    begin(root);
    for (let top = work.at(-1); top; top = work.at(-1)) {
      const { node } = top;
      const to = top.next[top.at];
      if (to !== undefined) {
        top.at += 1;
        if (code[to] === undefined) continue;
        if (order[to] === -1) begin(to);
        else if (onStack[to] === 1) low[node] = Math.min(low[node] as number, order[to] as number);
        continue;
      }
      work.pop();
      const above = work.at(-1)?.node;
      if (above !== undefined) low[above] = Math.min(low[above] as number, low[node] as number);
      if (low[node] !== order[node]) continue;
      const component: number[] = [];
      for (let one = stack.pop() as number; ; one = stack.pop() as number) {
        onStack[one] = 0;
        component.push(one);
        if (one === node) break;
      }
      if (component.length > 1 || nextOf(code[node] as Instruction).includes(node)) out.push(...component);
    }
  }
  return out;
}

function nextOf(instruction: Instruction): readonly number[] {
  if (instruction.op === 'end') return [];
  return instruction.op === 'branch' ? [instruction.yes, instruction.no] : [instruction.next];
}
