/**
 * A library kept checked while it is edited: takes edits as values, does again only what an edit touches, and gives the findings
 * that changed. Holds texts and results in memory; reads and writes nothing.
 */
import { checkBetweenFiles, checkProcedure, type LibraryFacts, type ProcedureFacts } from './checks/index.ts';
import type { FigureFacts } from './figures/index.ts';
import type { Finding } from './finding.ts';
import { guessHead, type HeadGuess, newBlockCache } from './format/index.ts';
import { firstOf, inOrder } from './in-order.ts';
import { KeptFigures } from './kept-figures.ts';
import { KeptFilms } from './kept-films.ts';
import { KeptVisits } from './kept-visits.ts';
import { LastProofs } from './last-proofs.ts';
import { Mentions } from './mentions.ts';
import { numbersOf } from './numbers-of.ts';
import {
  type Background,
  isGuide,
  isProcedure,
  isRegister,
  type LibraryFile,
  type LibraryReport,
  proveFile,
  type ReadFacts,
  readBackground,
  readFile,
  readGuideFile,
  report,
} from './pipeline.ts';
import { Shelf, WHOLE } from './shelf.ts';

/**
 * A file as it is now, or gone. Paths that are no library text (figures) carry no text; what stands in a figure may be told with it or later.
 * `later`: a procedure that need not be read now; it is when somebody calls it, or by `readOn`.
 */
export type Change =
  | { readonly path: string; readonly text: string; readonly later?: boolean }
  | { readonly path: string; readonly present: true; readonly figure?: FigureFacts }
  | { readonly path: string; readonly gone: true };

/** Findings by file, for the files whose findings may have changed; the rest stand. */
export interface Delta {
  readonly findings: ReadonlyMap<string, readonly Finding[]>;
  /** Findings between files: registers, guides, numbers. Always whole; none while procedures wait to be read. */
  readonly between: readonly Finding[];
  /** How many procedures wait to be read. */
  readonly waiting: number;
}

export interface Engine {
  /** Applies all changes as one edit. */
  apply(changes: readonly Change[]): Delta;
  /** As `apply`, but what is said between files stands as it was until `settle`: a writer first wants to know of the text at hand. */
  applyAhead(changes: readonly Change[]): Delta;
  /** Whether `settle` has something to do. */
  readonly due: boolean;
  /** Findings between files, brought up to date. */
  settle(): readonly Finding[];
  /** Reads, proves and checks so many of the procedures that wait. */
  readOn(count: number): Delta;
  /** Whoever looks through many procedures, and changes nothing, leaves the memory as it was. */
  inPassing<T>(look: () => T): T;
  /** Counts every sentence of every procedure; `known` is there at once. */
  report(): LibraryReport;
  /** All that is known as the library stands; nothing before the first edit. */
  readonly known: LibraryFacts;
  /** Number and title of those that wait, by path. */
  readonly waiting: ReadonlyMap<string, HeadGuess>;
  /** Every text there is, those that wait included. */
  readonly texts: ReadonlyMap<string, string>;
}

/** `whole`: how many procedures are kept with all that is known of them. */
export function newEngine(whole = WHOLE): Engine {
  return new LibraryEngine(whole);
}

/** How many of a long library are read again at once when all must be: what is open, and what was looked at before. */
const AT_ONCE = 3;

class LibraryEngine implements Engine {
  readonly texts = new Map<string, string>();
  private readonly paths = new Set<string>();
  private readonly figures = new KeptFigures();
  private background: Background | undefined;
  private readonly read = new Map<string, ReadFacts>();
  private readonly procedures = new Map<string, ProcedureFacts>();
  private readonly shelf: Shelf;
  private readonly whole: number;
  private readonly findings = new Map<string, readonly Finding[]>();
  private readonly mentions = new Mentions();
  /** Numbers of the procedures that a proof walked through, called by whomever; by path. */
  private readonly walked = new Map<string, ReadonlySet<string>>();
  /** In the order in which they will be read, with what is known of each. */
  readonly waiting = new Map<string, HeadGuess>();
  /** Checked when a procedure that they name had not been proved. */
  private readonly early = new Set<string>();
  private guides: LibraryFacts['guides'] = [];
  private between: readonly Finding[] = [];
  /** `between` is of an earlier state. */
  due = false;
  private readonly visits = new KeptVisits();
  private readonly proofs = new LastProofs();
  private readonly films = new KeptFilms();
  private facts: LibraryFacts | undefined;
  /** Made anew when a file comes, goes or changes its number. */
  private list: ProcedureFacts[] | undefined;
  private places = new Map<string, number>();
  private numbers: ReadonlyMap<string, string> | undefined;

  readonly inPassing: Engine['inPassing'] = (look) => this.shelf.inPassing(look);

  constructor(whole: number) {
    this.whole = whole;
    this.shelf = new Shelf({ read: (file, passing) => this.readOne(file, passing), prove: (read) => this.proofOf(read) }, whole);
  }

  apply(changes: readonly Change[]): Delta {
    const delta = this.applyAhead(changes);
    return { ...delta, between: this.settle() };
  }

  settle(): readonly Finding[] {
    if (this.due) this.between = checkBetweenFiles(this.known);
    this.due = false;
    return this.between;
  }

  applyAhead(changes: readonly Change[]): Delta {
    const touched = new Set<string>();
    const cameOrWent: string[] = [];
    let all = this.background === undefined;
    let registers = all;
    for (const change of changes) {
      const { path } = change;
      if ('gone' in change) {
        this.texts.delete(path);
        this.mentions.delete(path);
        this.waiting.delete(path);
        this.figures.gone(path);
        if (this.paths.delete(path)) cameOrWent.push(path);
      } else {
        if ('text' in change) this.texts.set(path, change.text);
        else if (change.figure !== undefined && this.figures.put(path, change.figure)) cameOrWent.push(path);
        if (!this.paths.has(path)) {
          cameOrWent.push(path);
          this.numbers = undefined;
        }
        this.paths.add(path);
        if ('text' in change && isProcedure(path)) {
          this.mentions.set(path, change.text);
          this.figures.text(path, change.text);
          const guess = change.later ? guessHead(change.text) : undefined;
          if (guess) {
            this.waiting.set(path, guess);
            continue;
          }
        }
      }
      touched.add(path);
      // A register may change what any sentence means; a new or lost procedure where any reference leads.
      if (isRegister(path)) registers = true;
      if (isRegister(path) || ('gone' in change && isProcedure(path))) all = true;
    }
    this.proofs.edit(touched);
    const again = all ? this.readAll(registers, touched) : this.readTouched(touched);
    for (const path of touched) this.waiting.delete(path);
    this.guides = [...this.texts.keys()]
      .filter(isGuide)
      .sort(inOrder)
      .map((path) => this.guideOf(path, touched));
    const named = this.naming(cameOrWent, again);
    this.proveAndCheck(again, named);
    const delta = this.deltaOf([...again, ...named]);
    for (const path of touched) if (!this.texts.has(path)) delta.set(path, []);
    return { findings: delta, between: this.between, waiting: this.left() };
  }

  readOn(count: number): Delta {
    const passing = this.procedures.size + this.waiting.size > this.whole;
    const next = firstOf(this.waiting.keys(), count);
    // When all have been read, those come again that had named one too early.
    const named = next.length > 0 ? [] : firstOf(this.early, count);
    const again = this.readTouched(new Set(next), passing);
    for (const path of next) this.waiting.delete(path);
    for (const path of named) this.early.delete(path);
    this.proveAndCheck(again, named);
    // Read because it is there, not because somebody looks at it: what is dropped at once never weighs on the memory of a long library.
    if (passing) for (const path of [...next, ...named]) this.shelf.drop(path);
    return { findings: this.deltaOf([...again, ...named]), between: this.settle(), waiting: this.left() };
  }

  /** How many are to be read yet, or to be checked again. */
  private left(): number {
    return this.waiting.size + this.early.size;
  }

  get known(): LibraryFacts {
    return this.facts as LibraryFacts;
  }

  report(): LibraryReport {
    const facts = this.known;
    const findings = [...this.settle(), ...[...this.findings.values()].flat()].sort(
      (a, b) => inOrder(a.file, b.file) || a.span.start - b.span.start || inOrder(a.check, b.check) || inOrder(a.message, b.message),
    );
    return report(facts, findings);
  }

  private deltaOf(paths: readonly string[]): Map<string, readonly Finding[]> {
    return new Map(paths.map((path) => [path, this.findings.get(path) ?? []]));
  }

  /** Procedures that show a file that came, went or was read anew, besides those that are looked at anyway. */
  private naming(cameOrWent: readonly string[], besides: readonly string[]): string[] {
    const looked = new Set(besides);
    const showing = new Set(cameOrWent.flatMap((path) => [...this.figures.shownIn(path)]));
    return [...showing].filter((path) => !looked.has(path) && this.procedures.has(path)).sort(inOrder);
  }

  /** In a long library all but what is at hand waits again, with number and title as they are known. */
  private putOff(touched: ReadonlySet<string>): void {
    if (this.procedures.size <= this.whole) return;
    const atOnce = new Set([...touched, ...this.shelf.lastUsed(AT_ONCE)]);
    for (const [path, { head }] of this.procedures)
      if (!atOnce.has(path) && this.texts.has(path)) this.waiting.set(path, { id: head.id, title: head.title });
  }

  /** Reads every procedure that does not wait; unchanged blocks and sentences come from the caches. */
  private readAll(registersChanged: boolean, touched: ReadonlySet<string>): string[] {
    this.putOff(touched);
    const files: LibraryFile[] = [...this.texts].map(([path, text]) => ({ path, text })).sort((a, b) => inOrder(a.path, b.path));
    const known = registersChanged ? undefined : this.background;
    this.background = readBackground(files, this.background?.caches, known, this.waiting);
    this.read.clear();
    this.procedures.clear();
    this.findings.clear();
    this.early.clear();
    this.walked.clear();
    this.shelf.clear();
    this.list = undefined;
    this.numbers = undefined;
    const own = files.filter(({ path }) => isProcedure(path) && !this.waiting.has(path));
    for (const file of own) this.read.set(file.path, readFile(file, this.background));
    return own.map(({ path }) => path);
  }

  /** Reads the procedures that were touched, and says which must be proved again: those, and all that call them. */
  private readTouched(touched: ReadonlySet<string>, passing = false): string[] {
    const again = new Set<string>();
    for (const path of [...touched].sort(inOrder)) {
      if (!isProcedure(path)) continue;
      const before = this.read.get(path)?.head ?? this.waiting.get(path);
      const after = this.readOne(path, passing);
      // Number and title are what other files refer to; when they change, references anywhere may.
      if (before === undefined || before.id !== after.head.id || before.title !== after.head.title) {
        this.waiting.delete(path);
        return this.readAll(false, touched);
      }
      this.read.set(path, after);
      again.add(path);
      // One that waited was read for whoever calls it as it is now.
      if (!this.waiting.has(path))
        for (const other of this.namedOrWalkedBy(after.head.id)) if (other !== path && this.procedures.has(other)) again.add(other);
    }
    return [...again].sort(inOrder);
  }

  /** Files that name the number, and those whose proof walked through it by way of others. */
  private namedOrWalkedBy(number: string): ReadonlySet<string> {
    const out = new Set(this.mentions.of(number));
    for (const [path, walked] of this.walked) if (walked.has(number)) out.add(path);
    return out;
  }

  /** `passing`: nothing of it is remembered for the next edit, since none is likely. */
  private readOne(path: string, passing = false): ReadFacts {
    const background = this.background as Background;
    const caches = passing ? { ...background.caches, blocks: newBlockCache() } : background.caches;
    return readFile({ path, text: this.texts.get(path) ?? '' }, { ...background, caches });
  }

  /** A long library is read in the order of its paths, so that nothing is sorted or copied again for each of them. */
  private putInOrder(facts: ProcedureFacts): void {
    const { list, places } = this;
    const place = places.get(facts.file);
    if (list === undefined) return;
    if (place !== undefined) list[place] = facts;
    else if (inOrder(list.at(-1)?.file ?? '', facts.file) < 0) {
      places.set(facts.file, list.length);
      list.push(facts);
    } else this.list = undefined;
  }

  private inPathOrder(): readonly ProcedureFacts[] {
    if (this.list === undefined) {
      this.list = [...this.procedures.keys()].sort(inOrder).map((path) => this.procedures.get(path) as ProcedureFacts);
      this.places = new Map(this.list.map(({ file }, place) => [file, place]));
    }
    return this.list;
  }

  private numbersKnown(): ReadonlyMap<string, string> {
    this.numbers ??= numbersOf(
      [...this.read].map(([path, { head }]) => [path, head.id] as const),
      [...this.waiting].map(([path, { id }]) => [path, id] as const),
    );
    return this.numbers;
  }

  /** The procedure of a number; one that waits is read for whoever asks. */
  private numbered(number: string): ReadFacts | undefined {
    const path = this.numbersKnown().get(number);
    if (path === undefined) return undefined;
    const known = this.read.get(path);
    if (known) return known;
    const facts = this.readOne(path);
    this.read.set(path, facts);
    return facts;
  }

  private guideOf(path: string, touched: ReadonlySet<string>): LibraryFacts['guides'][number] {
    const before = this.guides.find((guide) => guide.file === path);
    return before && !touched.has(path) ? before : readGuideFile({ path, text: this.texts.get(path) ?? '' });
  }

  private proofOf(facts: ReadFacts): ProcedureFacts['flow'] {
    const walked = new Set<string>();
    const get = (number: string): ReadFacts | undefined => {
      walked.add(number);
      return this.numbered(number);
    };
    this.walked.set(facts.file, walked);
    return proveFile(facts, (this.background as Background).registers, { get }, this.proofs.of(facts.file));
  }

  /** `named`: checked again as they are. */
  private proveAndCheck(again: readonly string[], named: readonly string[]): void {
    const background = this.background as Background;
    for (const path of again) {
      const facts = this.shelf.put(this.read.get(path) as ReadFacts);
      this.procedures.set(path, facts);
      this.putInOrder(facts);
      // What was read is held by the shelf alone from here on.
      this.read.set(path, facts);
    }
    const whole = this.left() === 0;
    const known: Omit<LibraryFacts, 'films' | 'visits'> = {
      registers: background.registers,
      registerFiles: background.registerFiles,
      procedures: this.inPathOrder(),
      guides: this.guides,
      paths: this.paths,
      figures: this.figures.facts,
    };
    let visits: LibraryFacts['visits'] | undefined = whole ? undefined : [];
    const walk = (): LibraryFacts['visits'] => this.visits.of(background.registers, known.procedures);
    const facts: LibraryFacts = {
      ...known,
      // Walked when somebody asks: they cost more than the procedure that was edited, and only what is said between files needs them.
      get visits() {
        visits ??= walk();
        return visits;
      },
      films: whole ? this.films.of({ ...known, visits: [] }, this.texts) : [],
    };
    this.facts = facts;
    for (const path of [...again, ...named]) {
      const early = !whole && this.namesWaiting(path);
      this.findings.set(path, checkProcedure(this.procedures.get(path) as ProcedureFacts, facts, early));
      if (early) this.early.add(path);
    }
    this.due = whole;
    if (!whole) this.between = [];
  }

  private namesWaiting(path: string): boolean {
    const numbers = this.numbersKnown();
    for (const run of this.mentions.runsIn(path)) {
      const other = numbers.get(run);
      if (other !== undefined && other !== path && this.waiting.has(other)) return true;
    }
    return false;
  }
}
