/**
 * The best account of a whole recording: which passage each heard word belongs to, and which words belong to none. One pass over all passages at once
 * (one-stage dynamic programming for connected words: H. Ney, IEEE Trans. ASSP 32, 1984, 263-271; from memory). Prices say how unlikely it is to leave
 * out, to go back, to read again and to say what is not in the script; it knows no words. Numbers in, numbers out.
 */
import type { PassageWords } from './passage-words.ts';

/** A passage spoken in the heard words [from, to). */
export interface Spoken {
  readonly passage: number;
  readonly from: number;
  readonly to: number;
}

/** In tenths of a telling word. Set on recordings made by tests/support/recording.ts; what they come to stands in tests/unit/narration/drift-trial.test.ts. */
export const PRICES = {
  /** A heard word that stands between those of a passage. */
  extra: 4,
  /** The same passage once more. */
  again: 12,
  back: 10,
  forward: 4,
  /** For each passage jumped over, up to a bound: a long jump is not less likely than a very long one. */
  each: 1,
  mostEach: 30,
  /** Back at a title or a remark: hardly ever meant. On to one: steps were left out before it. */
  backToLoose: 40,
  onToLoose: 4,
  /** Something that is not in the script, however long. */
  foreign: 12,
  /** To begin something where nobody drew breath. */
  breathless: 4,
} as const;

const NEVER = -1_000_000_000;
const NONE = -1;

/** `pauses`: of each heard word, whether there is a silence before it. In the order of the recording, none overlapping. */
export function decode(words: readonly PassageWords[], heard: Int32Array, pauses: readonly boolean[]): readonly Spoken[] {
  const lattice = new Lattice(words, heard.length);
  for (let at = 0; at < heard.length; at += 1) {
    const breath = pauses[at] ? 0 : PRICES.breathless;
    lattice.enter(at, breath);
    lattice.hear(at, heard[at] as number, breath);
  }
  return lattice.path();
}

class Lattice {
  private readonly count: number;
  /** First token of each passage, and one past the last. */
  private readonly first: Int32Array;
  private readonly loss: Int32Array;
  /** Of each token: the best that has come so far as it, and where its passage then begins. */
  private readonly score: Int32Array;
  private readonly start: Int32Array;
  /** Of each passage: the best that ends with it at the word reached; the best with foreign words after it, and where those begin. */
  private readonly end: Int32Array;
  private readonly foreign: Int32Array;
  private readonly foreignFrom: Int32Array;
  /** What it is worth to begin each passage at the word reached. */
  private readonly entry: Int32Array;
  /** By word and passage: where one that ends there began; which was before one that begins there, and where that ended. */
  private readonly began: Int32Array;
  private readonly before: Int16Array;
  private readonly beforeEnd: Int32Array;
  private readonly rows: readonly Int8Array[];
  private readonly columns = new Map<number, Int8Array>();
  private readonly loose: readonly boolean[];
  /** Heard words. */
  private readonly size: number;

  constructor(words: readonly PassageWords[], size: number) {
    this.size = size;
    this.rows = words.flatMap(({ rows }) => rows);
    this.loose = words.map(({ loose }) => loose);
    this.count = words.length;
    this.first = new Int32Array(this.count + 1);
    words.forEach(({ loss }, passage) => {
      this.first[passage + 1] = (this.first[passage] as number) + loss.length;
    });
    const tokens = this.first[this.count] as number;
    this.loss = Int32Array.from(words.flatMap(({ loss }) => loss));
    this.score = new Int32Array(tokens).fill(NEVER);
    this.start = new Int32Array(tokens);
    this.end = new Int32Array(this.count).fill(NEVER);
    this.foreign = new Int32Array(this.count).fill(NEVER);
    this.foreignFrom = new Int32Array(this.count);
    this.entry = new Int32Array(this.count);
    const cells = (size + 1) * this.count;
    this.began = new Int32Array(cells);
    this.before = new Int16Array(cells);
    this.beforeEnd = new Int32Array(cells);
  }

  private reach(passage: number, at: number): number {
    if (passage === NONE) return at === 0 ? 0 : -PRICES.foreign;
    return Math.max(this.end[passage] as number, this.foreign[passage] as number);
  }

  /** Where that which reaches word `at` after the passage has the passage's end. */
  private endOf(passage: number, at: number): number {
    if (passage === NONE) return 0;
    return (this.foreign[passage] as number) > (this.end[passage] as number) ? (this.foreignFrom[passage] as number) : at;
  }

  /** The best of all that may have been before each passage: first those from the front, then those from behind. */
  enter(at: number, breath: number): void {
    const { count, entry, before } = this;
    const { again, back, forward, each, mostEach, backToLoose, onToLoose } = PRICES;
    const base = at * count;
    let [run, runFrom, top, topFrom] = [NEVER, NONE, NEVER, NONE];
    for (let passage = 0; passage < count; passage += 1) {
      if (passage > 0) {
        const left = this.reach(passage - 2, at);
        run -= each;
        if (left - forward - each > run) [run, runFrom] = [left - forward - each, passage - 2];
        if (left > top) [top, topFrom] = [left, passage - 2];
      }
      const loose = this.loose[passage] ? onToLoose : 0;
      let [best, from] = [this.reach(passage - 1, at), passage - 1];
      if (run - loose > best) [best, from] = [run - loose, runFrom];
      const far = top - forward - each * mostEach - loose;
      if (far > best) [best, from] = [far, topFrom];
      entry[passage] = best;
      before[base + passage] = from;
    }
    [run, runFrom, top, topFrom] = [NEVER, NONE, NEVER, NONE];
    for (let passage = count - 1; passage >= 0; passage -= 1) {
      const loose = this.loose[passage] ? backToLoose : 0;
      const own = this.reach(passage, at);
      let [best, from] = [entry[passage] as number, before[base + passage] as number];
      if (own - again - loose > best) [best, from] = [own - again - loose, passage];
      if (run - loose > best) [best, from] = [run - loose, runFrom];
      const far = top - back - each * mostEach - loose;
      if (far > best) [best, from] = [far, topFrom];
      entry[passage] = best - breath;
      before[base + passage] = from;
      this.beforeEnd[base + passage] = this.endOf(from, at);
      run -= each;
      if (own - back - each > run) [run, runFrom] = [own - back - each, passage];
      if (own > top) [top, topFrom] = [own, passage];
    }
  }

  /** One heard word further, in every passage and in none. */
  hear(at: number, id: number, breath: number): void {
    const { count, first, loss, score, start, end, foreign, foreignFrom, entry } = this;
    const between = PRICES.extra;
    const column = this.column(id);
    const base = (at + 1) * count;
    for (let passage = 0; passage < count; passage += 1) {
      const anew = (end[passage] as number) - PRICES.foreign - breath;
      if (anew > (foreign[passage] as number)) {
        foreign[passage] = anew;
        foreignFrom[passage] = at;
      }
      // `lead`: to begin here with the first places left out.
      let lead = entry[passage] as number;
      let [diagonal, diagonalStart] = [lead, at];
      let [best, from] = [NEVER, at];
      const last = first[passage + 1] as number;
      for (let token = first[passage] as number; token < last; token += 1) {
        const skip = loss[token] as number;
        const old = score[token] as number;
        const oldStart = start[token] as number;
        best -= skip;
        const on = diagonal + (column[token] as number);
        if (on >= best) {
          best = on;
          from = diagonalStart;
        }
        const extra = old - between;
        if (extra > best) {
          best = extra;
          from = oldStart;
        }
        lead -= skip;
        if (old >= lead) {
          diagonal = old;
          diagonalStart = oldStart;
        } else {
          diagonal = lead;
          diagonalStart = at;
        }
        score[token] = best;
        start[token] = from;
      }
      end[passage] = best;
      this.began[base + passage] = from;
    }
  }

  /** Worth of a heard word at every place of the script. */
  private column(id: number): Int8Array {
    const known = this.columns.get(id);
    if (known) return known;
    const { rows } = this;
    const out = new Int8Array(rows.length);
    for (let token = 0; token < rows.length; token += 1) out[token] = (rows[token] as Int8Array)[id] as number;
    this.columns.set(id, out);
    return out;
  }

  path(): readonly Spoken[] {
    const { count, size } = this;
    const { forward, each, mostEach } = PRICES;
    let [best, passage] = [this.reach(NONE, size) - forward - each * mostEach, NONE];
    for (let one = 0; one < count; one += 1) {
      const left = count - 1 - one;
      const sum = this.reach(one, size) - (left === 0 ? 0 : forward + each * Math.min(left, mostEach));
      if (sum > best) [best, passage] = [sum, one];
    }
    const out: Spoken[] = [];
    for (let to = this.endOf(passage, size); passage !== NONE; ) {
      const from = this.began[to * count + passage] as number;
      out.push({ passage, from, to });
      const cell = from * count + passage;
      passage = this.before[cell] as number;
      to = this.beforeEnd[cell] as number;
    }
    return out.reverse();
  }
}
