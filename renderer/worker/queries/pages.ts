/** Printed pages: as drawing operations to show, or as the bytes of the PDF. Both come from the one engine that prints. */
import {
  checkLibrary,
  type Finding,
  figureFile,
  type LibraryFacts,
  type Paper,
  type ProcedureFacts,
  readPaper,
} from '../../../procedures-schema/index.ts';
import { filmsIn, isFilmText, linksOf } from '../../../procedures-schema/narration/index.ts';
import {
  attachmentsOf,
  type Book,
  type ComposeInput,
  checklistOf,
  type DrawnBook,
  type DrawnPage,
  drawPages,
  foldedChoice,
  guideBook,
  impose,
  isFor,
  keptRevisions,
  type LayoutNote,
  leftOut,
  newPages,
  noEdition,
  type PressChoice,
  type PrintNote,
  printBook,
  printedNumber,
  printNotes,
  printSheets,
  procedureBook,
  type SheetSide,
  shortGuide,
  shortProcedure,
  type UnitsEdition,
  writeChecklist,
} from '../../../publishing/index.ts';
import type { LibraryModel } from '../library-model.ts';

export interface Edition {
  /** A procedure or a guide. */
  readonly file: string;
  readonly model?: string;
  readonly units?: UnitsEdition;
  readonly paper?: Paper;
  readonly binding?: Book['binding'];
  /** Both sides of the leaf, with mirrored margins. */
  readonly duplex?: boolean;
  /** Of the printed words. */
  readonly language?: string;
  /** short: the paper checklist, one or two sheets a procedure. */
  readonly form?: 'full' | 'short';
  readonly large?: boolean;
  readonly obsolete?: boolean;
  /** Boxes to sign off at the end of each procedure; as the house asks, if not given. The paper checklist always has them. */
  readonly signOff?: boolean;
  /** Boxes for values, ticks and sign-off can be filled in on the screen. */
  readonly fillable?: boolean;
  /** The text of each procedure and its checklist travel inside the PDF. */
  readonly attach?: boolean;
  /**
   * The library as it was issued before: what changed since gets a bar in the margin. All texts that are needed, and all figures in base64, by path; null: a
   * figure that is as it was.
   */
  readonly earlier?: { readonly texts: Readonly<Record<string, string>>; readonly figures: Readonly<Record<string, string | null>> };
  /** Sheets that are folded or cut, instead of single pages. */
  readonly press?: PressChoice;
  readonly draft: boolean;
}

/** A bitmap that is printed; the page has its bytes, and decodes them for the screen. */
export interface ShownPicture {
  readonly path: string;
  /** Dots across. */
  readonly columns: number;
}

export interface PagesShown {
  readonly pages: readonly DrawnPage[];
  /** By the number that the pages have them under. */
  readonly pictures: readonly ShownPicture[];
  /** The number printed on each page; empty where none is. */
  readonly numbers: readonly string[];
  /** Printed on both sides: a page on the left faces the one after it. */
  readonly duplex: boolean;
  /** What leaves the printer, where that is not page by page. */
  readonly sides?: readonly SheetSide[];
  /** What could not be printed as asked. */
  readonly notes: readonly PrintNote[];
  /** Procedures that are not in this edition, in a sentence. */
  readonly leftOut?: string;
  readonly milliseconds: number;
}

export function pages(model: LibraryModel, edition: Edition): PagesShown | undefined {
  const begun = performance.now();
  const book = bookFor(model, edition);
  if (!book || !model.fonts) return undefined;
  const drawn = drawPages(book, model.fonts, edition.press?.kind === 'booklet');
  return {
    pages: drawn.pages,
    pictures: picturesOf(drawn, model),
    numbers: drawn.labels.map(printedNumber),
    duplex: book.duplex,
    ...(edition.press ? { sides: impose(drawn.pages, edition.press) } : {}),
    notes: notesOf(drawn.notes, book, model, edition),
    ...leftOutOf(model, edition),
    milliseconds: performance.now() - begun,
  };
}

function picturesOf({ images }: Pick<DrawnBook, 'images'>, { figures }: LibraryModel): readonly ShownPicture[] {
  if (images.length === 0) return NO_PICTURES;
  const paths = new Map([...figures].flatMap(([path, one]) => ('bytes' in one ? [[one.bytes, path] as const] : [])));
  return images.map(({ bytes, columns }) => ({ path: paths.get(bytes) ?? '', columns }));
}

const NO_PICTURES: readonly ShownPicture[] = [];

const notesOf = (notes: readonly LayoutNote[], book: Book, model: LibraryModel, edition: Edition): readonly PrintNote[] => [
  ...printNotes(notes, model.facts),
  ...(edition.earlier === undefined ? [] : keptRevisions(book, inputFor(model, edition))),
];

function leftOutOf({ facts }: LibraryModel, edition: Edition): Pick<PagesShown, 'leftOut'> {
  const guide = facts.guides.find(({ file }) => file === edition.file);
  const said = guide && leftOut(guide, askedOf(facts, edition));
  return said === undefined ? {} : { leftOut: said };
}

export interface ProofAsk {
  readonly file: string;
  /** A place on a page, which is then shown; where it stands nowhere, the page shown last is shown again. */
  readonly marked?: string;
  /** Counted from nought; shown instead of the place. */
  readonly page?: number;
}

/** One page of the many: the others stay in the worker. */
export interface ProofShown {
  readonly page: DrawnPage;
  /** By the number that the page has them under. */
  readonly pictures: readonly ShownPicture[];
  /** As it is printed on it; empty where none is. */
  readonly number: string;
  readonly at: number;
  readonly count: number;
  readonly milliseconds: number;
}

interface Living {
  readonly file: string;
  readonly fonts: object;
  readonly draw: ReturnType<typeof newPages>;
  /** What the pages were made from. */
  facts: LibraryFacts | undefined;
  revision: number;
  pages: readonly DrawnPage[];
  pictures: readonly ShownPicture[];
  numbers: readonly string[];
  /** Shown last. */
  at: number;
}

/** The document that is being written, as it was drawn last: the next state begins from it. */
let living: Living | undefined;

/** The page a writer looks at. An edit costs the chapter it is in; another page of the same state costs nothing. */
export function proof(model: LibraryModel, { file, marked, page }: ProofAsk): ProofShown | undefined {
  const begun = performance.now();
  const { fonts, revision, facts } = model;
  if (fonts === undefined) return undefined;
  if (living?.file !== file || living.fonts !== fonts)
    living = { file, fonts, draw: newPages(fonts), facts: undefined, revision, pages: [], pictures: [], numbers: [], at: 0 };
  if (living.facts !== facts || living.revision !== revision) {
    const book = bookFor(model, { file, draft: false });
    const drawn = book && living.draw(book);
    living.pages = drawn?.pages ?? [];
    living.pictures = drawn ? picturesOf(drawn, model) : [];
    living.numbers = drawn?.labels.map(printedNumber) ?? [];
    living.facts = facts;
    living.revision = revision;
  }
  const { pages } = living;
  const place = marked === undefined ? -1 : pages.findIndex(({ ops }) => ops.some((op) => op.op === 'target' && op.name === marked));
  const at = Math.max(0, Math.min(page ?? (place < 0 ? living.at : place), pages.length - 1));
  living.at = at;
  const shown = pages[at];
  if (shown === undefined) return undefined;
  const { numbers, pictures } = living;
  return { page: shown, pictures, number: numbers[at] ?? '', at, count: pages.length, milliseconds: performance.now() - begun };
}

export interface Made {
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly pages: number;
  readonly notes: readonly PrintNote[];
}

export function pdf(model: LibraryModel, edition: Edition): Made | undefined {
  const book = bookFor(model, edition);
  if (!book || !model.fonts) return undefined;
  const name = `${nameOf(book, edition)}.pdf`;
  if (edition.press) {
    const folded = printSheets(book, model.fonts, edition.press, model.written);
    return { bytes: folded.bytes, name, pages: folded.pages, notes: notesOf(folded.notes, book, model, edition) };
  }
  const guide = model.facts.guides.find(({ file }) => file === edition.file);
  const holds = printedIn(model, edition);
  const printed = printBook(book, model.fonts, {
    fillable: edition.fillable === true,
    ...(model.written ? { written: model.written } : {}),
    ...(edition.attach ? { attachments: attachmentsOf(holds, guide, inputFor(model, edition), book.language) } : {}),
  });
  return { bytes: printed.bytes, name, pages: printed.pages, notes: notesOf(printed.notes, book, model, edition) };
}

export function checklist(model: LibraryModel, edition: Edition): Made | undefined {
  const facts = model.procedure(edition.file);
  if (!facts) return undefined;
  mustHaveEdition(facts, model, edition);
  const made = checklistOf(facts, inputFor(model, edition));
  const name = [facts.head.id, facts.head.revision ?? '', edition.model ?? ''].filter((part) => part !== '').join('-');
  return { bytes: new TextEncoder().encode(writeChecklist(made)), name: `${safe(name)}.json`, pages: 0, notes: [] };
}

/** Errors in the document, in what it is made from and in what it holds: what `print` refuses for. */
export function blocking(
  model: LibraryModel,
  ask: { readonly file: string; readonly findings: readonly Finding[] },
): readonly Finding[] | undefined {
  // What stands in the way is known when all was read.
  if (model.waiting > 0) return undefined;
  const guide = model.facts.guides.find(({ file }) => file === ask.file);
  const inside = new Set(guide?.tree.parts.flatMap((part) => part.entries.map(({ document }) => document)) ?? []);
  const held = new Set(model.facts.procedures.filter(({ head }) => inside.has(head.id)).map(({ file }) => file));
  return ask.findings.filter(
    ({ severity, file }) => severity === 'error' && (file === ask.file || held.has(file) || !/^(procedures|guides)\//.test(file)),
  );
}

type FilmLinks = ReturnType<typeof linksOf> extends ReadonlyMap<string, infer Links> ? Links : never;

/** Laid on the text once for each state of a procedure: an alignment takes longer than a page. */
const aligned = new WeakMap<ProcedureFacts, Map<string, FilmLinks>>();

/** As read last: films change seldom, and pages are made with every key. */
let lastFilms: { readonly texts: ReadonlyMap<string, string>; readonly films: ReturnType<typeof filmsIn>['films'] } | undefined;

function filmsOnce(texts: ReadonlyMap<string, string>): ReturnType<typeof filmsIn>['films'] {
  const same = lastFilms?.texts.size === texts.size && [...texts].every(([path, text]) => lastFilms?.texts.get(path) === text);
  if (lastFilms === undefined || !same) lastFilms = { texts, films: filmsIn(texts).films };
  return lastFilms.films;
}

/** Where the library's films show the steps of what is printed, as the command line links them. */
function filmLinksOf(model: LibraryModel, edition: Edition): ReadonlyMap<string, FilmLinks> {
  const texts = new Map([...model.texts].filter(([path]) => isFilmText(path)));
  const out = new Map<string, FilmLinks>();
  if (texts.size === 0) return out;
  const films = filmsOnce(texts);
  for (const facts of printedIn(model, edition)) {
    const own = films.filter(({ record }) => record.procedure === facts.head.id);
    if (own.length === 0) continue;
    const known = aligned.get(facts) ?? new Map<string, FilmLinks>();
    aligned.set(facts, known);
    const key = `${edition.model ?? ''} ${JSON.stringify(own.map(({ record }) => record))}`;
    const links = known.get(key) ?? linksOf(own, model.facts, edition.model).get(facts.head.id) ?? [];
    known.set(key, links);
    if (links.length > 0) out.set(facts.head.id, links);
  }
  return out;
}

/** The procedures of an edition: that one, or those of its guide that are for its model. */
function printedIn(model: LibraryModel, edition: Edition): readonly ProcedureFacts[] {
  const guide = model.facts.guides.find(({ file }) => file === edition.file);
  const held = new Set(guide?.tree.parts.flatMap(({ entries }) => entries.map(({ document }) => document)));
  return model.facts.procedures
    .filter(({ file, head }) => (guide ? held.has(head.id) : file === edition.file))
    .filter((facts) => isFor(facts, askedOf(model.facts, edition)));
}

const inputFor = (model: LibraryModel, edition: Edition) => ({
  films: filmLinksOf(model, edition),
  library: model.facts,
  figures: model.figures,
  draft: edition.draft,
  ...(edition.model === undefined ? {} : { model: edition.model }),
  ...(edition.units === undefined ? {} : { units: edition.units }),
  ...(edition.earlier === undefined ? {} : earlierOf(model, edition.earlier)),
});

/** As read last: it is the same for every edition that is looked at. */
let lastEarlier: { readonly key: string; readonly facts: LibraryFacts } | undefined;

/** Read with its own registers. */
function earlierOf(
  model: LibraryModel,
  { texts, figures }: NonNullable<Edition['earlier']>,
): Required<Pick<ComposeInput, 'earlier' | 'earlierFigures'>> {
  const files = Object.entries(texts).map(([path, text]) => ({ path, text }));
  const paths = [...Object.keys(texts), ...Object.keys(figures)].sort();
  const key = JSON.stringify([files, paths]);
  if (lastEarlier?.key !== key) lastEarlier = { key, facts: checkLibrary(files, paths).facts };
  const images = Object.entries(figures).flatMap(([path, base64]) => {
    const image = base64 === null ? model.figures.get(path) : figureFile(path, bytesOf(base64));
    return image === undefined ? [] : [[path, image] as const];
  });
  return { earlier: lastEarlier.facts, earlierFigures: new Map(images) };
}

const bytesOf = (base64: string): Uint8Array => Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));

const askedOf = (library: LibraryFacts, { model }: Edition) => ({ library, ...(model === undefined ? {} : { model }) });

/** As the command line refuses it: the few steps that name no model must never look like the whole of it. */
function mustHaveEdition(document: Parameters<typeof noEdition>[0], model: LibraryModel, edition: Edition): void {
  const refused = noEdition(document, askedOf(model.facts, edition));
  if (refused !== undefined) throw new Error(refused);
}

/** A size as typed may be one that nothing can be printed on. */
function paperOf(typed: string): Paper {
  const read = readPaper(typed);
  if (read !== undefined && 'paper' in read) return read.paper;
  throw new Error(read?.refused ?? `"${typed}" is no size of paper.`);
}

function bookFor(model: LibraryModel, edition: Edition): Book | undefined {
  const own = {
    ...(edition.binding === undefined ? {} : { binding: edition.binding }),
    ...(edition.duplex === undefined ? {} : { duplex: edition.duplex }),
    ...(edition.paper === undefined ? {} : { paper: paperOf(edition.paper) }),
    ...(edition.language === undefined ? {} : { language: edition.language }),
    ...(edition.large ? { large: true } : {}),
    ...(edition.obsolete ? { obsolete: true } : {}),
    ...(edition.signOff === undefined ? {} : { signOff: edition.signOff }),
  };
  const choice = foldedChoice(own, edition.press);
  const make = edition.form === 'short' ? { guide: shortGuide, procedure: shortProcedure } : { guide: guideBook, procedure: procedureBook };
  const guide = model.facts.guides.find(({ file }) => file === edition.file);
  const facts = guide ? undefined : model.procedure(edition.file);
  const document = guide ?? facts;
  if (document === undefined) return undefined;
  mustHaveEdition(document, model, edition);
  if (guide) return make.guide(guide, inputFor(model, edition), choice);
  return facts && make.procedure(facts, inputFor(model, edition), choice);
}

/** Leaves of the checklist are always bound alike. */
const boundAs = ({ form, binding, duplex }: Edition): readonly string[] =>
  form === 'short'
    ? []
    : [
        ...(binding === undefined ? [] : [binding === 'none' ? 'unbound' : `bound-${binding}`]),
        ...(duplex === undefined ? [] : [duplex ? 'two-sided' : 'one-sided']),
      ];

const safe = (name: string): string => name.replace(/[^\w.-]+/g, '-');
const nameOf = (book: Book, edition: Edition): string =>
  safe(
    [
      book.number,
      book.revision ?? '',
      edition.model ?? '',
      edition.units ?? '',
      edition.language ?? '',
      edition.form === 'short' ? 'checklist' : '',
      edition.large ? 'large-type' : '',
      edition.form === 'short' || edition.signOff === undefined ? '' : edition.signOff ? 'sign-off' : 'no-sign-off',
      ...boundAs(edition),
      edition.press ? edition.press.kind : edition.fillable ? 'form' : '',
      edition.draft ? 'DRAFT' : '',
    ]
      .filter((part) => part !== '')
      .join('-'),
  );
