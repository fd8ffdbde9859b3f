/** What a JPEG says of itself before its dots come. Plain data. */
import type { CodeTable } from './codes.ts';

export interface Component {
  readonly id: number;
  /** Blocks of eight by eight in a unit, across and down. */
  readonly across: number;
  readonly down: number;
  /** Which table its values are multiplied by. */
  readonly steps: number;
  /** Blocks that show some of the picture; and in a row, with those that fill up the last unit. */
  readonly columns: number;
  readonly rows: number;
  readonly stride: number;
  /** Of a picture that comes in several passes: which values of a block are not nought, two words a block. */
  readonly set?: Uint32Array;
}

export interface Frame {
  readonly progressive: boolean;
  readonly components: readonly Component[];
  /** Units of an interleaved scan, across and down. */
  readonly unitsAcross: number;
  readonly unitsDown: number;
}

/** What was said so far, by number of the table. */
export interface Tables {
  readonly dc: (CodeTable | undefined)[];
  readonly ac: (CodeTable | undefined)[];
  readonly steps: (Uint16Array | undefined)[];
  /** Units between two restarts; 0: none. */
  restart: number;
}

/** One pass over one or several components. */
export interface Scan {
  readonly parts: readonly { readonly component: Component; readonly dc: number; readonly ac: number }[];
  readonly first: number;
  readonly last: number;
  /** Bit positions: of the pass before, and of this one. */
  readonly high: number;
  readonly low: number;
}
