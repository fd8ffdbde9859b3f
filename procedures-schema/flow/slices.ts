/**
 * Slices: what a rule about one thing reads of the state, so that things which have nothing to do with each other are walked apart. The
 * energy is one slice, because hands, locks and people are shared by all sources; each cover, part, loose fastener, temporary thing and
 * return test is one of its own. A slice keeps a bit with all that this bit's effects read, so a walk through it is a walk through the
 * whole: what is told comes out the same. semantics.md 22.
 */
import type { Program } from './code.ts';
import type { Breach, Doing } from './effects/doing.ts';
import { handsIn } from './effects/rule-hands.ts';
import type { Layout } from './state.ts';

export interface Slice {
  /** What it is about, for whoever reads how a proof went. */
  readonly about: string;
  /** By bit: 1 where the state keeps it. Outcomes and facts are kept by all. */
  readonly keep: Uint8Array;
  /** Whether a breach is this slice's to tell: each is told by one. */
  readonly tells: (breach: Breach) => boolean;
  /** The energy itself: it tells also what is about no bit, and from where no walk comes out. */
  readonly whole: boolean;
  /** It keeps what the energy band is read from. */
  readonly energy: boolean;
}

/** Everything in one: where the states are few, nothing is gained by parting them. */
export function wholeSlice(layout: Layout): Slice {
  return { about: 'all', keep: new Uint8Array(layout.size).fill(1), tells: () => true, whole: true, energy: true };
}

export function slicesOf(
  program: Program,
  layout: Layout,
  doingOf: (instruction: Extract<Program['code'][number], { op: 'act' }>) => Doing,
): readonly Slice[] {
  const { table } = layout;
  const { covers, parts, fasteners } = table.machine;
  const asked = askedBy(program, layout, doingOf);
  /** Which slice tells of a bit: its place in `units`, or the energy. */
  const owner = new Int32Array(layout.size).fill(ENERGY);
  const units: { about: string; bits: readonly number[]; energy: boolean }[] = [];
  const own = (about: string, bits: readonly number[], energy: boolean): void => {
    for (const bit of bits) owner[bit] = units.length;
    units.push({ about, bits, energy });
  };
  const held = new Set<number>();
  const holding = (name: string): number[] =>
    table.fastenersOf(name).map((index) => {
      held.add(index);
      return layout.fastener + index;
    });
  // An open cover is told also where energy comes back, so its slice keeps the energy.
  for (const [index, { name }] of covers.entries()) own(name, [layout.cover + index, ...holding(name)], true);
  for (const [index, { name }] of parts.entries()) own(name, [layout.part + index, ...holding(name)], false);
  for (const [index, { name }] of fasteners.entries()) if (!held.has(index)) own(name, [layout.fastener + index], false);
  for (const [index, name] of layout.temporaries.entries()) if (!asked.earths.has(name)) own(name, [layout.temporary + index], true);
  for (const [index, name] of layout.tests.entries()) own(`${name}, its test`, [layout.test + index], false);

  const always = bitsOf(layout, [...asked.bits, ...answers(layout), layout.declared]);
  const energy = always.slice();
  for (let bit = 0; bit < layout.size; bit += 1) if (owner[bit] === ENERGY) energy[bit] = 1;
  for (const bit of asked.covers) energy[bit] = 1;
  const tells =
    (unit: number) =>
    ({ bits }: Breach): boolean =>
      // A cover that is on because of its screws is one thing with them; all bits of a breach stand in one slice.
      (bits[0] === undefined ? ENERGY : owner[bits[0]]) === unit;
  return [
    { about: 'energy', keep: energy, tells: tells(ENERGY), whole: true, energy: true },
    ...units.map((unit, index): Slice => {
      const keep = (unit.energy || asked.energy ? energy : always).slice();
      for (const bit of unit.bits) keep[bit] = 1;
      return { about: unit.about, keep, tells: tells(index), whole: false, energy: unit.energy || asked.energy };
    }),
  ];
}

const ENERGY = -1;

/** What branches and entries of the program read of the state beside answers: ways on hang on it, in every slice. */
function askedBy(program: Program, layout: Layout, doingOf: Parameters<typeof slicesOf>[2]) {
  const { table } = layout;
  const { machine } = table;
  const bits = new Set<number>();
  const covers = new Set<number>();
  const earths = new Set<string>();
  let energy = false;
  const coverBit = (name: string): void => {
    const at = table.covers.get(name);
    if (at !== undefined) covers.add(layout.cover + at);
  };
  const allCovers = (): void => {
    for (const { name } of machine.covers) coverBit(name);
  };
  for (const instruction of program.code) {
    if (instruction.op === 'branch' && instruction.condition.kind === 'state') {
      const { kind, name } = instruction.condition.thing;
      if (kind === 'point') energy = true;
      const at = kind === 'cover' ? table.covers.get(name) : kind === 'part' ? table.parts.get(name) : table.fasteners.get(name);
      if (at !== undefined && (kind === 'cover' || kind === 'part' || kind === 'fastener')) bits.add(layout[kind] + at);
    } else if (instruction.op === 'enter' || instruction.op === 'between') {
      // A start that is not there is taken as there, which sets all bits.
      if (instruction.startsWith === 'opened and locked out' || program.visit) energy = true;
      if (program.visit) allCovers();
    } else if (instruction.op === 'act') {
      const { action } = instruction;
      const doing = doingOf(instruction);
      // A hand that measures goes where a cover is off; a try-out shows nothing while an interlocked one is.
      const unplaced = handsIn(doing) && action.things.some(({ thing }) => thing.kind === 'measurement');
      if (unplaced) for (const zone of machine.zones) zone.behind.forEach(coverBit);
      if (action.kind === 'try-out') for (const cover of machine.covers) if (cover.interlocked) coverBit(cover.name);
    }
  }
  // An earth lead keeps electrical energy from coming back.
  const some = program.code.find((one) => one.op === 'act');
  for (const name of layout.temporaries) if (some?.op === 'act' && doingOf(some).toolKind(name) === 'earth lead') earths.add(name);
  return { bits, covers, earths, energy };
}

function answers(layout: Layout): readonly number[] {
  return [...layout.outcomes.map((_, index) => layout.outcome + index), ...layout.facts.map((_, index) => layout.fact + index)];
}

function bitsOf(layout: Layout, bits: Iterable<number>): Uint8Array {
  const out = new Uint8Array(layout.size);
  for (const bit of bits) out[bit] = 1;
  return out;
}
