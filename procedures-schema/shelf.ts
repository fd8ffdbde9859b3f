/**
 * The facts of a long library's procedures within bounded memory: whole for those used last; of every other what lists and other
 * files ask for, with the rest read and proved again when somebody asks. The same text against the same registers gives the same
 * facts, so nobody can tell which it was except by the time it took.
 */
import type { ProcedureFacts } from './checks/index.ts';

/** How many are kept whole: more than any one question walks through at once. */
export const WHOLE = 300;

type Read = Omit<ProcedureFacts, 'flow'>;
type Flow = ProcedureFacts['flow'];

/** One procedure as it stands. A proof is made of what was read and needs of other procedures only what is read in them. */
export interface Again {
  /** `passing`: it is dropped again when somebody has looked at it. */
  read(file: string, passing?: boolean): Read;
  prove(read: Read): Flow;
}

interface Whole {
  readonly read: Read;
  flow?: Flow;
}

export class Shelf {
  /** The one used longest ago comes first. */
  private readonly whole = new Map<string, Whole>();
  private readonly again: Again;
  private readonly limit: number;
  /** What was made for somebody who looks in passing. */
  private passing: Map<string, Whole> | undefined;

  constructor(again: Again, limit = WHOLE) {
    this.again = again;
    this.limit = limit;
  }

  /** Proves a procedure: one newly read, or one put here before that is to be proved again. */
  put(facts: Read): ProcedureFacts {
    const read = facts instanceof Shelved ? this.readOf(facts.file) : facts;
    const flow = this.again.prove(read);
    this.keep({ read, flow });
    return new Shelved(read, flow, this);
  }

  /** For when everything must be read again. */
  clear(): void {
    this.whole.clear();
  }

  /** Nobody is likely to ask for this one soon. */
  drop(file: string): void {
    this.whole.delete(file);
  }

  /** The last used first. */
  lastUsed(count: number): readonly string[] {
    return [...this.whole.keys()].slice(-count).reverse();
  }

  /** What must be made anew for `look` is kept as long as that takes, and pushes nothing out that somebody works on. */
  inPassing<T>(look: () => T): T {
    this.passing = new Map();
    try {
      return look();
    } finally {
      this.passing = undefined;
    }
  }

  readOf(file: string): Read {
    return this.take(file).read;
  }

  flowOf(file: string): Flow {
    const whole = this.take(file);
    whole.flow ??= this.again.prove(whole.read);
    return whole.flow;
  }

  private take(file: string): Whole {
    if (this.passing) return this.taken(file, this.passing);
    const whole = this.whole.get(file) ?? { read: this.again.read(file) };
    this.keep(whole);
    return whole;
  }

  private taken(file: string, passing: Map<string, Whole>): Whole {
    const known = this.whole.get(file) ?? passing.get(file);
    if (known) return known;
    const whole = { read: this.again.read(file, true) };
    passing.set(file, whole);
    return whole;
  }

  private keep(whole: Whole): void {
    const { file } = whole.read;
    this.whole.delete(file);
    this.whole.set(file, whole);
    if (this.whole.size <= this.limit) return;
    const [oldest] = this.whole.keys();
    if (oldest !== undefined) this.whole.delete(oldest);
  }
}

class Shelved implements ProcedureFacts {
  readonly file: string;
  readonly source: Read['source'];
  readonly problems: Read['problems'];
  readonly schemaProblems: Read['schemaProblems'];
  readonly head: Read['head'];
  readonly machines: Read['machines'];
  readonly flow: Flow;
  readonly #shelf: Shelf;

  constructor(read: Read, flow: Flow, shelf: Shelf) {
    this.file = read.file;
    this.source = read.source;
    this.problems = read.problems;
    this.schemaProblems = read.schemaProblems;
    this.head = read.head;
    this.machines = read.machines;
    this.flow = new ShelvedFlow(read.file, flow, shelf);
    this.#shelf = shelf;
  }

  get tree(): Read['tree'] {
    return this.#shelf.readOf(this.file).tree;
  }
  get names(): Read['names'] {
    return this.#shelf.readOf(this.file).names;
  }
  get read(): Read['read'] {
    return this.#shelf.readOf(this.file).read;
  }
  get references(): Read['references'] {
    return this.#shelf.readOf(this.file).references;
  }
}

/** Verdicts are in every list; walks and bands only beside the text. */
class ShelvedFlow implements Flow {
  readonly verdicts: Flow['verdicts'];
  readonly explored: Flow['explored'];
  readonly #file: string;
  readonly #shelf: Shelf;

  constructor(file: string, { verdicts, explored }: Flow, shelf: Shelf) {
    this.verdicts = verdicts;
    this.explored = explored;
    this.#file = file;
    this.#shelf = shelf;
  }

  get violations(): Flow['violations'] {
    return this.#shelf.flowOf(this.#file).violations;
  }
  get unreached(): Flow['unreached'] {
    return this.#shelf.flowOf(this.#file).unreached;
  }
  get bands(): Flow['bands'] {
    return this.#shelf.flowOf(this.#file).bands;
  }
  get during(): Flow['during'] {
    return this.#shelf.flowOf(this.#file).during;
  }
}
