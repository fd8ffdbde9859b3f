/** The state of one naive walk: names and values as semantics.md 2 lists them, and which action last changed each. Knows no rule. */
import type { Machine } from '../../procedures-schema/index.ts';

export type Proof = 'none' | 'early' | 'empty' | 'metered' | 'good' | 'used';

export interface Naive {
  /** By the number of the bit; what was never touched is not there. */
  readonly values: (string | undefined)[];
  /** Bits that ever changed, the latest last, each with the action that did it. */
  readonly changed: (readonly [bit: string, uid: number])[];
}

const NUMBERS = new Map<string, number>();
function numberOf(bit: string): number {
  const known = NUMBERS.get(bit);
  if (known !== undefined) return known;
  NUMBERS.set(bit, NUMBERS.size);
  return NUMBERS.size - 1;
}

/** The value of every bit that was never touched. */
const FIRST: Readonly<Record<string, string>> = {
  point: 'off',
  lock: 'no',
  /** "taken point P", "taken lock P R": taken as right by a finding; no step did it. */
  taken: 'no',
  stored: 'charged',
  proof: 'none',
  watch: 'no',
  cover: 'found',
  part: 'found',
  fastener: 'found',
  control: 'off',
  test: 'done',
  meter: 'untried',
  temporary: 'out',
  people: 'clear',
  tools: 'out',
  told: 'yes',
  declared: 'no',
  outcome: '',
  fact: '',
};

const first = (bit: string): string => FIRST[bit.split(' ', 1)[0] as string] as string;

export function startOf(machine: Machine, startsWith: string): Naive {
  const naive: Naive = { values: [], changed: [] };
  if (startsWith !== 'opened and locked out') return naive;
  for (const point of machine.points) {
    keep(naive, `point ${point.name}`, 'safe');
    if (point.roles.includes('isolate')) keep(naive, `lock ${point.name} reader`, 'yes');
  }
  for (const source of machine.sources) {
    keep(naive, `stored ${source.name}`, 'gone');
    keep(naive, `proof ${source.name}`, source.canComeBack && source.restrain.length === 0 ? 'used' : 'good');
  }
  for (const cover of machine.covers) keep(naive, `cover ${cover.name}`, 'given');
  keep(naive, 'people', 'in');
  keep(naive, 'tools', 'in');
  keep(naive, 'told', 'no');
  return naive;
}

export function get(naive: Naive, bit: string): string {
  return naive.values[numberOf(bit)] ?? first(bit);
}

export function copyOf(naive: Naive): Naive {
  return { values: [...naive.values], changed: [...naive.changed] };
}

/** Sets a bit of a copy without blaming anybody: an answer, or how the walk starts. */
export function keep(naive: Naive, bit: string, value: string): void {
  naive.values[numberOf(bit)] = value === first(bit) ? undefined : value;
}

/** Changes a copy in place; a value that is there already is no change. */
export function put(naive: Naive, bit: string, value: string, uid: number): void {
  if (get(naive, bit) === value) return;
  keep(naive, bit, value);
  const at = naive.changed.findIndex(([one]) => one === bit);
  if (at >= 0) naive.changed.splice(at, 1);
  naive.changed.push([bit, uid]);
}

/** The action that last changed one of the bits that are wrong; -1: none ever did. semantics.md 23. */
export function causeOf(naive: Naive, wrong: readonly string[]): number {
  for (let at = naive.changed.length - 1; at >= 0; at -= 1) {
    const [bit, uid] = naive.changed[at] as readonly [string, number];
    if (wrong.includes(bit)) return uid;
  }
  return -1;
}

/** `blame`: walks that differ only in who changed what are kept apart, so that each cause is found. */
export function keyOf(naive: Naive, blame = true): string {
  let end = naive.values.length;
  while (end > 0 && naive.values[end - 1] === undefined) end -= 1;
  if (!blame) return naive.values.slice(0, end).join();
  return `${naive.values.slice(0, end).join()}|${naive.changed.map(([bit, uid]) => `${numberOf(bit)}:${uid}`).join()}`;
}

/** The facts and outcomes of one state in another. */
export function answersOf(from: Naive, into: Naive): Naive {
  const out = copyOf(into);
  for (const [bit, number] of NUMBERS) if (/^(?:fact|outcome) /.test(bit)) out.values[number] = from.values[number];
  return out;
}
