/** Entry of the worker: core and publishing off the page's thread, so that typing never waits. Long jobs have a second worker of this same file. */
import type { Finding } from '../../procedures-schema/index.ts';
import type { LibraryModel } from './library-model.ts';
import { KeptLibrary } from './library-model.ts';
import { Manners } from './manners.ts';
import type { FromWorker, ToWorker } from './protocol.ts';
import { queries } from './queries/queries.ts';

const library = new KeptLibrary();
const scope = globalThis as unknown as {
  postMessage(message: FromWorker): void;
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
};
const say = (message: FromWorker): void => scope.postMessage(message);

/** Between two words of how far a document is, milliseconds: more often nobody reads them. */
const TELLING = 100;
let toldAt = 0;
library.written = (page, of) => {
  const now = performance.now();
  if (page < of && now - toldAt < TELLING) return;
  toldAt = now;
  say({ kind: 'written', page, of });
};

scope.onmessage = ({ data }) => {
  try {
    treat(data);
    settleSoon();
    lookUpSoon();
  } catch (error) {
    const { message } = error as Error;
    say({ kind: 'failed', id: data.kind === 'ask' ? data.id : undefined, message });
  }
};

const engine = location.pathname.split('/').at(-1) ?? '';

/** Longest that a message waits for what nobody asked for. */
const SLICE = 12;
let going = false;
const manners = new Manners();

/** What is said between files comes when the questions that follow an edit are answered; milliseconds of quiet. */
const QUIET = 50;
let settling: ReturnType<typeof setTimeout> | undefined;

function settleSoon(): void {
  clearTimeout(settling);
  settling = undefined;
  if (!library.due) return;
  settling = setTimeout(() => {
    try {
      say({ kind: 'between', between: library.settle() });
    } catch (error) {
      say({ kind: 'failed', id: undefined, message: (error as Error).message });
    }
  }, QUIET);
}

let listed = false;
let lookingUp: ReturnType<typeof setTimeout> | undefined;
let news = false;
let newsAt = 0;

/** Signatures are looked up when everything else is done: nobody who types waits for them. Only where somebody looks at the list. */
function lookUpSoon(wait = QUIET): void {
  clearTimeout(lookingUp);
  lookingUp = listed && library.waiting === 0 ? setTimeout(lookUp, wait) : undefined;
}

function lookUp(): void {
  try {
    const begun = performance.now();
    const found = library.signatures.lookUp(library, () => performance.now() - begun > SLICE);
    news ||= found.news;
    if (news && (found.done || begun - newsAt > 1000)) {
      news = false;
      newsAt = begun;
      say({ kind: 'listed' });
    }
    if (!found.done) lookUpSoon(0);
  } catch (error) {
    say({ kind: 'failed', id: undefined, message: (error as Error).message });
  }
}

const heldFor = (): number => manners.heldFor(performance.now());

/** Between two messages a little more of a long library is read. */
function readOnSoon(): void {
  if (going || library.waiting === 0) return;
  going = true;
  manners.read(performance.now());
  setTimeout(readOn, heldFor());
}

function readOn(): void {
  // A key may have come since this was arranged.
  if (heldFor() > 0) return void setTimeout(readOn, heldFor());
  going = false;
  try {
    readSlice();
    readOnSoon();
    lookUpSoon();
  } catch (error) {
    say({ kind: 'failed', id: undefined, message: (error as Error).message });
  }
}

function readSlice(): void {
  const begun = performance.now();
  const findings = new Map<string, readonly Finding[]>();
  let between: readonly Finding[] = [];
  do {
    const delta = library.readOn(1);
    for (const [file, own] of delta.findings) findings.set(file, own);
    between = delta.between;
  } while (library.waiting > 0 && performance.now() - begun < SLICE);
  say({ kind: 'background', findings: [...findings], between, waiting: library.waiting });
}

type Printing = typeof import('./queries/printing.ts')['printing'];
let fetched: Promise<Printing> | undefined;

/** Fetched once; after a failure again with the next question. */
function fetchPrinting(): Promise<Printing> {
  fetched ??= import('./queries/printing.ts').then(
    ({ printing }) => printing,
    (error: Error) => {
      fetched = undefined;
      throw error;
    },
  );
  return fetched;
}

/** A question to the printer is answered when it is there, of the text as it is then. */
function whenPrinting(id: number, then: (printing: Printing) => void): void {
  fetchPrinting()
    .then(then)
    .catch(({ message }: Error) => say({ kind: 'failed', id, message }));
}

const answer = (id: number, query: unknown, ask: unknown): void =>
  say({ kind: 'answer', id, answer: (query as (model: LibraryModel, ask: unknown) => never)(library, ask) });

function treat(message: ToWorker): void {
  switch (message.kind) {
    case 'edit': {
      const begun = performance.now();
      // Many at once are no keys: a library is opened.
      if (message.changes.length === 1) manners.key(begun);
      const delta = library.apply(message.changes);
      const milliseconds = performance.now() - begun;
      const { waiting } = delta;
      const between = library.due ? undefined : delta.between;
      say({ kind: 'checked', rev: message.rev, findings: [...delta.findings], between, waiting, milliseconds, engine });
      void fetchPrinting().catch(() => undefined);
      return readOnSoon();
    }
    case 'fonts':
      library.fonts = message.faces as LibraryModel['fonts'];
      return;
    case 'figure':
      return library.addFigure(message.path, message.bytes);
    case 'ask': {
      listed ||= message.query === 'overview';
      const { query, id, ask } = message;
      if (query in queries) return answer(id, queries[query as keyof typeof queries], ask);
      return whenPrinting(id, (printing) => answer(id, printing[query as keyof Printing], ask));
    }
  }
}
