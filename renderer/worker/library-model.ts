/** The library as the worker keeps it: the engine, the figures, the fonts. Queries read it; only the worker's entry changes it. */
import {
  type Change,
  type Delta,
  type Engine,
  type FigureFacts,
  figureFacts,
  figureFile,
  type LibraryFacts,
  newEngine,
  type ProcedureFacts,
} from '../../procedures-schema/index.ts';
import type { FontFiles, Image } from '../../publishing/index.ts';
import { SignatureStates } from './signatures.ts';

export interface LibraryModel {
  readonly facts: LibraryFacts;
  readonly figures: ReadonlyMap<string, Image>;
  readonly fonts: FontFiles | undefined;
  /** Counts edits; what was made at one revision may be kept until the next. */
  readonly revision: number;
  /** Procedures that wait to be read: what can only be said of the whole library cannot be said yet. */
  readonly waiting: number;
  /** Their numbers and titles, by path. */
  readonly heads: Engine['waiting'];
  /** Every text, those that wait included. */
  readonly texts: ReadonlyMap<string, string>;
  readonly signatures: SignatureStates;
  /** Told how far a document is that is being written, page by page. */
  readonly written?: ((page: number, of: number) => void) | undefined;
  procedure(file: string): ProcedureFacts | undefined;
  /** Whoever looks through many procedures leaves the memory as it was. */
  inPassing<T>(look: () => T): T;
}

export class KeptLibrary implements LibraryModel {
  private readonly engine: Engine = newEngine();
  readonly figures = new Map<string, Image>();
  private readonly figureFacts = new Map<string, FigureFacts>();
  readonly signatures = new SignatureStates();
  fonts: FontFiles | undefined;
  written: ((page: number, of: number) => void) | undefined;
  revision = 0;
  waiting = 0;

  apply(changes: readonly Change[]): Delta {
    this.revision += 1;
    for (const change of changes)
      if ('gone' in change) {
        this.figures.delete(change.path);
        this.figureFacts.delete(change.path);
      }
    return this.taken(this.engine.applyAhead(changes.map((change) => this.withFigure(change))));
  }

  /** What stands in a figure is told with the edit that says it is there, if it was read by then. */
  private withFigure(change: Change): Change {
    if (!('present' in change) || change.figure) return change;
    const figure = this.figureFacts.get(change.path);
    return figure ? { ...change, figure } : change;
  }

  get due(): boolean {
    return this.engine.due;
  }

  settle(): Delta['between'] {
    return this.engine.settle();
  }

  readOn(count: number): Delta {
    return this.taken(this.engine.readOn(count));
  }

  get heads(): Engine['waiting'] {
    return this.engine.waiting;
  }

  get texts(): ReadonlyMap<string, string> {
    return this.engine.texts;
  }

  private taken(delta: Delta): Delta {
    this.waiting = delta.waiting;
    return delta;
  }

  /** Its bytes; checked with the next edit that names it. */
  addFigure(path: string, bytes: Uint8Array): void {
    const file = figureFile(path, bytes);
    if (file === undefined) return;
    this.figures.set(path, file);
    this.figureFacts.set(path, figureFacts(file));
    this.revision += 1;
  }

  inPassing<T>(look: () => T): T {
    return this.engine.inPassing(look);
  }

  get facts(): LibraryFacts {
    return this.engine.known;
  }

  procedure(file: string): ProcedureFacts | undefined {
    return this.facts.procedures.find((one) => one.file === file);
  }
}
