/** The blocks of a scan, word by word: whether they can be what a camera or a program wrote (ITU-T T.81, annexes F and G). Makes no dots. */
import type { Bits } from './bits.ts';
import type { CodeTable } from './codes.ts';
import type { Scan } from './model.ts';

/** One block; `at` is its place in the component. False: no picture has such a block. */
export type ReadBlock = (bits: Bits, at: number) => boolean;

/** What a component needs of the tables. */
export interface PartTables {
  readonly dc: CodeTable | undefined;
  readonly ac: CodeTable | undefined;
  readonly steps: Uint16Array;
}

/** Of a component in a scan: reads block after block, and forgets at a restart what the last one was. */
export interface PartReader {
  readonly block: ReadBlock;
  readonly restart: () => void;
  /** Blocks that a word said to be empty and that have not come yet. */
  readonly owed: () => number;
}

/**
 * The strength of a block is that of its dots (the transform is orthonormal): 64 dots of -128 to 127 are no stronger than 1024. Programs that let dots
 * overshoot to keep edges clear are allowed half as much again; and each value may be a step off.
 */
const strongest = (steps: Uint16Array): number => {
  const off = Math.sqrt(steps.reduce((sum, step) => sum + step * step, 0));
  return (1536 + off) ** 2;
};

/** The first value is eight times the mean of the dots: 31 of overshoot are the most that such programs allow (from memory). */
const brightest = (steps: Uint16Array): number => 1280 + (steps[0] as number);

/** Table F.1 and F.2: of eight bits a colour. */
const [mostDc, mostAc] = [11, 10];

const nothing = (): void => undefined;

/** The first value of each block is told by how far it is from that of the block before (F.2.2.1). NaN: there is no such word. */
class Means {
  private before = 0;

  restart(): void {
    this.before = 0;
  }

  next(bits: Bits, dc: CodeTable): number {
    const size = bits.word(dc);
    if (size < 0 || size > mostDc) return Number.NaN;
    this.before += bits.signed(size);
    return this.before;
  }
}

/** All of a block in one go. */
export function sequential({ dc, ac, steps }: PartTables): PartReader | undefined {
  if (dc === undefined || ac === undefined) return undefined;
  const [most, bright] = [strongest(steps), brightest(steps)];
  const means = new Means();
  return {
    restart: () => means.restart(),
    owed: () => 0,
    block: (bits) => {
      const mean = means.next(bits, dc) * (steps[0] as number);
      if (!(Math.abs(mean) <= bright)) return false;
      let strength = mean * mean;
      for (let k = 1; k < 64; k += 1) {
        const word = bits.word(ac);
        if (word === 0) break;
        const own = word & 15;
        // Sixteen noughts are the only run that no value follows.
        if (word < 0 || own > mostAc || (own === 0 && word !== 0xf0)) return false;
        k += word >> 4;
        if (k > 63) return false;
        if (own === 0) continue;
        const value = bits.signed(own) * (steps[k] as number);
        strength += value * value;
      }
      return strength <= most;
    },
  };
}

/** A pass over the first value of each block: its upper bits, or one bit more. */
export function progressiveDc({ dc, steps }: PartTables, { high, low }: Scan): PartReader | undefined {
  if (high > 0)
    return {
      restart: nothing,
      owed: () => 0,
      block: (bits) => {
        bits.take(1);
        return true;
      },
    };
  if (dc === undefined) return undefined;
  const bright = brightest(steps) + (1 << low) * (steps[0] as number);
  const means = new Means();
  return {
    restart: () => means.restart(),
    owed: () => 0,
    block: (bits) => Math.abs(means.next(bits, dc)) * (1 << low) * (steps[0] as number) <= bright,
  };
}

/** A first pass over other values. */
export function progressiveAc({ ac, steps }: PartTables, { first, last, low }: Scan, set: Uint32Array): PartReader | undefined {
  if (ac === undefined) return undefined;
  const most = strongest(steps);
  let empty = 0;
  return {
    restart: () => {
      empty = 0;
    },
    owed: () => empty,
    block: (bits, at) => {
      if (empty > 0) {
        empty -= 1;
        return true;
      }
      let strength = 0;
      for (let k = first; k <= last; k += 1) {
        const word = bits.word(ac);
        if (word < 0) return false;
        const [run, size] = [word >> 4, word & 15];
        if (size === 0 && run < 15) {
          empty = (1 << run) + bits.take(run) - 1;
          break;
        }
        if (size > mostAc) return false;
        k += run;
        if (k > last) return false;
        if (size === 0) continue;
        const value = (bits.signed(size) << low) * (steps[k] as number);
        strength += value * value;
        set[2 * at + (k >> 5)] = (set[2 * at + (k >> 5)] as number) | (1 << (k & 31));
      }
      return strength <= most;
    },
  };
}

/** One bit more of values that are there, and values that are there from this bit on (G.1.2.3). */
export function refinedAc({ ac }: PartTables, { first, last }: Scan, set: Uint32Array): PartReader | undefined {
  if (ac === undefined) return undefined;
  let empty = 0;
  const has = (at: number, k: number): boolean => (((set[2 * at + (k >> 5)] as number) >>> (k & 31)) & 1) === 1;
  return {
    restart: () => {
      empty = 0;
    },
    owed: () => empty,
    block: (bits, at) => {
      let k = first;
      while (empty === 0 && k <= last) {
        const word = bits.word(ac);
        if (word < 0) return false;
        const size = word & 15;
        let run = word >> 4;
        if (size > 1) return false;
        if (size === 0 && run < 15) {
          empty = (1 << run) + bits.take(run);
          break;
        }
        if (size === 1) bits.take(1);
        for (; k <= last; k += 1) {
          if (has(at, k)) bits.take(1);
          else if (run === 0) break;
          else run -= 1;
        }
        if (k > last && size === 1) return false;
        if (size === 1) set[2 * at + (k >> 5)] = (set[2 * at + (k >> 5)] as number) | (1 << (k & 31));
        k += 1;
      }
      if (empty === 0) return true;
      if (set[2 * at] !== 0 || set[2 * at + 1] !== 0) for (; k <= last; k += 1) if (has(at, k)) bits.take(1);
      empty -= 1;
      return true;
    },
  };
}
