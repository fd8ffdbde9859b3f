/**
 * From places where a rule was broken to findings: for each cause, the last step that set a missing bit wrong on some walk, and the
 * shortest walk that goes through it. Walks backward over all ways the search found, not only the shortest. semantics.md 23.
 */
import type { WalkAnswer } from '../finding.ts';
import type { Program } from './code.ts';
import type { Breach } from './effects/doing.ts';
import { placeKey } from './merge.ts';
import type { FlowPlace, WalkPoint } from './model.ts';
import type { State } from './state.ts';

/** One (instruction, state) that the search met, with every way into it; the first is on a shortest walk. */
export interface Visit {
  readonly node: number;
  readonly state: State;
  readonly edges: Edge[];
  /** Steps begun on the shortest walk that leads here. */
  readonly steps: number;
  /** A walk may come back to the start, so having no way in does not tell it. */
  readonly root: boolean;
  /** Past an outcome that has no way on, or a start that is not there: it shows what is reached and accuses nothing. */
  readonly unsaid: boolean;
  /** What was answered on the shortest walk that leads here, the last first. */
  readonly told: Told | undefined;
}

export interface Told {
  readonly answer: Answer;
  readonly before: Told | undefined;
}

export interface Edge {
  readonly from: Visit;
  /** The answer given at a branch, for the walk. */
  readonly given: WalkAnswer | undefined;
  /** What was answered there, where the state does not remember it. */
  readonly answer: Answer | undefined;
}

/** An answer that the state does not hold: of what is asked (answerKey), the values that are left. `anew`: measured again, all is open. */
export interface Answer {
  readonly keys: readonly string[];
  readonly left: number;
  readonly anew: boolean;
}

/** What is asked, as one word: a fact and a measurement may have the same name. */
export function answerKey(kind: 'fact' | 'outcome', name: string): string {
  return `${kind} ${name}`;
}

export interface Report {
  readonly visit: Visit;
  readonly breach: Breach;
  readonly at: FlowPlace;
}

export interface Found {
  readonly breach: Breach;
  readonly at: FlowPlace;
  readonly cause: FlowPlace | undefined;
  readonly walk: readonly WalkPoint[];
  readonly length: number;
  /** What the walk answers in two ways. */
  readonly doubts: readonly string[];
}

export function foundFrom(reports: readonly Report[], program: Program): Found[] {
  const groups = new Map<string, Report[]>();
  for (const report of reports) {
    const { rule, thing, bits, mask } = report.breach;
    const key = `${rule}\n${thing}\n${bits.join()}\n${mask ?? ''}\n${placeKey(report.at)}`;
    const group = groups.get(key);
    if (group) group.push(report);
    else groups.set(key, [report]);
  }
  return [...groups.values()].flatMap((group) => causesOf(group, program));
}

/** One finding a cause, for breaches of one kind at one place. */
function causesOf(group: readonly Report[], program: Program): Found[] {
  const first = group[0] as Report;
  const { breach, at } = first;
  // Visits come shortest first, so the first report of a group has the shortest walk.
  if (breach.bits.length === 0) return [foundBy(waysTo(first.visit), breach, at, undefined, first.visit.steps, program)];
  const mask = breach.mask ?? 255;
  const changed = (before: State, after: State): boolean =>
    breach.bits.some((bit) => ((before[bit] ?? 0) & mask) !== ((after[bit] ?? 0) & mask));
  /** Each visit from which the breach is met with the bits as they are, with the way on. */
  const onward = new Map<Visit, { readonly far: number; readonly on: Edge | undefined; readonly to: Visit | undefined }>();
  const best = new Map<
    string,
    { readonly cause: FlowPlace | undefined; readonly edge: Edge | undefined; readonly to: Visit; readonly length: number }
  >();
  let level: Visit[] = [];
  let next: Visit[] = [];
  for (const { visit } of group)
    if (!onward.has(visit)) {
      onward.set(visit, { far: 0, on: undefined, to: undefined });
      level.push(visit);
    }
  for (let far = 0; level.length > 0; far += 1) {
    for (let index = 0; index < level.length; index += 1) {
      const to = level[index] as Visit;
      if (onward.get(to)?.far !== far) continue;
      if (to.root) better(undefined, undefined, to, far);
      for (const edge of to.edges) {
        const step = program.code[edge.from.node]?.op === 'step' ? 1 : 0;
        if (changed(edge.from.state, to.state)) {
          better(program.code[edge.from.node]?.place, edge, to, edge.from.steps + step + far);
          continue;
        }
        const known = onward.get(edge.from);
        if (known && known.far <= far + step) continue;
        onward.set(edge.from, { far: far + step, on: edge, to });
        (step === 1 ? next : level).push(edge.from);
      }
    }
    level = next;
    next = [];
  }
  return [...best.values()].map(({ cause, edge, to, length }) => {
    const ways = edge ? [...waysTo(edge.from), { visit: to, edge }] : waysTo(to);
    for (let one = onward.get(to); one?.to; one = onward.get(one.to)) ways.push({ visit: one.to, edge: one.on });
    return foundBy(ways, breach, at, cause, length, program);
  });

  function better(cause: FlowPlace | undefined, edge: Edge | undefined, to: Visit, length: number): void {
    const key = placeKey(cause);
    const known = best.get(key);
    if (!known || length < known.length) best.set(key, { cause, edge, to, length });
  }
}

function foundBy(
  ways: readonly Way[],
  breach: Breach,
  at: FlowPlace,
  cause: FlowPlace | undefined,
  length: number,
  program: Program,
): Found {
  return { breach, at, cause, walk: walkOf(ways, program), length, doubts: doubtsOf(ways) };
}

/** What a walk answers in two ways: it is none that anybody walks. */
function doubtsOf(ways: readonly Way[]): readonly string[] {
  return contradicted(ways.flatMap(({ edge }) => edge?.answer ?? []));
}

/** The same of the shortest walk to a place. */
export function doubtsAt(visit: Visit): readonly string[] {
  const answers: Answer[] = [];
  for (let one = visit.told; one; one = one.before) answers.push(one.answer);
  return contradicted(answers.reverse());
}

function contradicted(answers: readonly Answer[]): readonly string[] {
  if (answers.length < 2) return [];
  const left = new Map<string, number>();
  const out = new Set<string>();
  for (const answer of answers)
    for (const key of answer.keys) {
      const now = answer.anew ? answer.left : (left.get(key) ?? answer.left) & answer.left;
      if (now === 0) out.add(key);
      left.set(key, now === 0 ? answer.left : now);
    }
  return [...out];
}

export interface Way {
  readonly visit: Visit;
  /** The way there from the one before. */
  readonly edge: Edge | undefined;
}

/** A shortest way from the start. */
export function waysTo(visit: Visit): Way[] {
  const ways: Way[] = [];
  let at = visit;
  for (let edge = at.edges[0]; !at.root && edge; edge = at.edges[0]) {
    ways.push({ visit: at, edge });
    at = edge.from;
  }
  ways.push({ visit: at, edge: undefined });
  return ways.reverse();
}

/** The steps of a walk, each with the answers given in it. */
export function walkOf(ways: readonly Way[], program: Program): WalkPoint[] {
  const points: { place: FlowPlace; answers: WalkAnswer[] }[] = [];
  for (const { visit, edge } of ways) {
    if (edge?.given !== undefined) points.at(-1)?.answers.push(edge.given);
    const instruction = program.code[visit.node];
    if (instruction?.op === 'step') points.push({ place: instruction.place, answers: [] });
  }
  return points.map(({ place, answers }) => ({ place, ...(answers.length > 0 ? { answers } : {}) }));
}
