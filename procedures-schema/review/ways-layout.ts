/**
 * Where the arrows of a step graph run and where their answers stand, as plain numbers. Steps lie left of nought, one under the other; right of
 * it come the answers, each on a line of its own, then lanes for arrows that lead on, then lanes for those that lead back. Draws nothing.
 *
 * A line holds one thing only, an arrow that comes in or an answer that leads out, and what runs up or down does so right of all answers: so
 * no answer can lie on another, on a step, or under an arrow.
 */
import type { GraphEdge } from './step-graph.ts';

export interface WaysSize {
  /** Height of a line, and what a row has above and below its lines together. */
  readonly line: number;
  readonly pad: number;
  /** The most room that an answer takes; a longer one is shortened. */
  readonly answer: number;
  /** From lane to lane. */
  readonly lane: number;
  readonly broad: (text: string) => number;
}

export interface LaidRow {
  readonly top: number;
  readonly height: number;
  /** Middle of its first line, on which the step's words stand. */
  readonly middle: number;
}

export interface LaidAnswer {
  /** As much as there is room for. */
  readonly text: string;
  readonly whole: string;
  readonly x: number;
  /** Middle of its line. */
  readonly y: number;
  readonly width: number;
}

export interface LaidEdge {
  readonly edge: GraphEdge;
  readonly back: boolean;
  /** Corners, from the step or its answer to the tip at the step that is led to. */
  readonly points: readonly (readonly [number, number])[];
  readonly answer?: LaidAnswer;
}

export interface LaidWays {
  /** One for each step, and one for the end. */
  readonly rows: readonly LaidRow[];
  readonly edges: readonly LaidEdge[];
  /** Of what stands right of the steps. */
  readonly width: number;
  readonly height: number;
}

/** Of an answer from the step, and of an arrow from its answer. */
const INDENT = 12;
const APART = 6;
/** The tip of an arrow before the step. */
export const TIP = 2;

interface Slotted {
  readonly edge: GraphEdge;
  readonly to: number;
  readonly back: boolean;
  readonly slot: number;
}

export function layWays(count: number, edges: readonly GraphEdge[], size: WaysSize): LaidWays {
  const told = edges
    .map((edge) => ({ edge, to: edge.to ?? count }))
    // From a step to the next is what everybody does; only an answer makes it worth an arrow.
    .filter(({ edge, to }) => to !== edge.from + 1 || edge.note !== '')
    .map((one) => ({ ...one, back: one.to <= one.edge.from }));
  const ins = new Map<string, number>();
  const lines = Array.from({ length: count + 1 }, () => 0);
  const take = (row: number): number => {
    const slot = lines[row] ?? 0;
    lines[row] = slot + 1;
    return slot;
  };
  // What comes in stands on the first line, beside the step's own words.
  for (const { to, back } of told) if (!ins.has(keyOf(to, back))) ins.set(keyOf(to, back), take(to));
  const out = told.map((one): Slotted => ({ ...one, slot: take(one.edge.from) }));
  let top = 0;
  const rows = lines.map((own): LaidRow => {
    const row = { top, height: size.pad + size.line * Math.max(1, own), middle: top + (size.pad + size.line) / 2 };
    top += row.height;
    return row;
  });
  const yOf = (row: number, slot: number): number => (rows[row]?.middle ?? 0) + size.line * slot;
  const answers = out.map(({ edge, slot }): LaidAnswer | undefined => {
    if (edge.note === '') return undefined;
    const text = shortened(edge.note, size.answer, size.broad);
    return { text, whole: edge.note, x: INDENT, y: yOf(edge.from, slot), width: size.broad(text) };
  });
  const first = INDENT + Math.max(0, ...answers.map((answer) => answer?.width ?? 0)) + 2 * APART;
  const lanes = lanesOf(
    out.map((one) => ({ ...one, y: yOf(one.edge.from, one.slot), end: yOf(one.to, ins.get(keyOf(one.to, one.back)) ?? 0) })),
  );
  const xOf = (lane: number): number => first + lane * size.lane;
  return {
    rows,
    edges: out.map(({ edge, to, back, slot }, index): LaidEdge => {
      const answer = answers[index];
      const key = keyOf(to, back);
      const [x, y, end] = [xOf(lanes.of.get(key) ?? 0), yOf(edge.from, slot), yOf(to, ins.get(key) ?? 0)];
      const begin = answer === undefined ? APART : answer.x + answer.width + APART;
      const points = [[begin, y] as const, [x, y] as const, [x, end] as const, [TIP, end] as const];
      return { edge, back, points, ...(answer === undefined ? {} : { answer }) };
    }),
    width: xOf(lanes.count) + size.lane,
    height: top,
  };
}

const keyOf = (to: number, back: boolean): string => `${back ? 'back' : 'on'} ${to}`;

interface Run {
  readonly to: number;
  readonly back: boolean;
  readonly y: number;
  readonly end: number;
}

/** Arrows that lead to the same step run in one lane. Short ones lie inside, those that lead back outside all that lead on. */
function lanesOf(runs: readonly Run[]): { readonly of: ReadonlyMap<string, number>; readonly count: number } {
  const reach = new Map<string, { readonly back: boolean; from: number; to: number }>();
  for (const { to, back, y, end } of runs) {
    const own = reach.get(keyOf(to, back)) ?? { back, from: end, to: end };
    own.from = Math.min(own.from, y);
    own.to = Math.max(own.to, y);
    reach.set(keyOf(to, back), own);
  }
  const of = new Map<string, number>();
  let count = 0;
  for (const back of [false, true]) {
    const own = [...reach]
      .filter(([, one]) => one.back === back)
      .sort(([, a], [, b]) => a.to - a.from - (b.to - b.from) || a.from - b.from);
    const taken: { readonly from: number; readonly to: number }[][] = [];
    for (const [key, { from, to }] of own) {
      let lane = taken.findIndex((there) => there.every((one) => one.to < from || one.from > to));
      if (lane < 0) lane = taken.push([]) - 1;
      taken[lane]?.push({ from, to });
      of.set(key, count + lane);
    }
    count += taken.length;
  }
  return { of, count };
}

/** As many whole words as there is room for; the rest is told by an ellipsis. */
export function shortened(text: string, room: number, broad: (text: string) => number): string {
  if (broad(text) <= room) return text;
  let end = text.length;
  while (end > 0 && broad(`${text.slice(0, end)}…`) > room) end = Math.max(0, text.lastIndexOf(' ', end - 1));
  if (end > 0) return `${text.slice(0, end)}…`;
  // Its first word is wider than the room.
  end = text.length;
  while (end > 0 && broad(`${text.slice(0, end)}…`) > room) end -= 1;
  return `${text.slice(0, end)}…`;
}

/** The corners joined, as the data of an SVG path, each corner rounded. */
export function waysPath(points: LaidEdge['points'], radius: number): string {
  const at = (index: number): readonly [number, number] => points[index] ?? [0, 0];
  const out = [`M${at(0).join(' ')}`];
  for (let index = 1; index < points.length - 1; index += 1) {
    const [before, corner, after] = [at(index - 1), at(index), at(index + 1)];
    const [begin, end] = [towards(corner, before, radius), towards(corner, after, radius)];
    out.push(`L${begin.join(' ')}`, `Q${corner.join(' ')} ${end.join(' ')}`);
  }
  return `${out.join(' ')} L${at(points.length - 1).join(' ')}`;
}

/** At most half way, so that two corners of a short run do not meet. All runs are level or upright. */
function towards([x, y]: readonly [number, number], [toX, toY]: readonly [number, number], radius: number): readonly [number, number] {
  const step = (from: number, to: number): number => from + Math.sign(to - from) * Math.min(radius, Math.abs(to - from) / 2);
  return [step(x, toX), step(y, toY)];
}
