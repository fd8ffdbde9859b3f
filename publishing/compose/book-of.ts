/** A guide, or one procedure, as a book: which chapters it has, in which order. What stands in them: the files beside. */
import type { LibraryFacts, ProcedureFacts, Prose } from '../../procedures-schema/index.ts';
import type { Book, BookBlock, Chapter, Flow, Inline } from '../book.ts';
import { askChapter, pagesChapter, recordChapter } from './back-matter.ts';
import { sectionsOf } from './blocks.ts';
import { cautionsChapter } from './cautions.ts';
import { coverageChapter } from './coverage.ts';
import { backCover, cover } from './covers.ts';
import { documentsChapter } from './documents-cited.ts';
import { assertEdition, heldBy, isFor, noEdition } from './for-model.ts';
import { frontOf } from './front.ts';
import { inlineOf } from './inline.ts';
import { inLanguage } from './language.ts';
import { limitsChapter } from './limits-appendix.ts';
import { indexChapter } from './name-index.ts';
import { toolsChapter } from './roll-up.ts';
import { type ComposeInput, chapterAnchor, type Scope, scopeOf } from './scope.ts';
import { signOff } from './sign-off.ts';
import { type Issue, markedSince } from './since.ts';
import { languageOfText, saidIn, wordsOf } from './spoken.ts';
import { symptomChapter } from './symptom-matrix.ts';
import { typographic } from './typographic.ts';

export type Guide = LibraryFacts['guides'][number];

const text = (said: string): Inline[] => [{ kind: 'text', text: said }];

/** Settings of the printing that the caller may choose over those of guide and house. */
export interface PrintChoice {
  readonly paper?: Book['paper'];
  readonly binding?: Book['binding'];
  /** Both sides of the leaf, with mirrored margins. */
  readonly duplex?: boolean;
  /** Of the printed words; the writer's own stay as they are. */
  readonly language?: string;
  /** The large-type edition. */
  readonly large?: boolean;
  /** Marked as replaced on every page. */
  readonly obsolete?: boolean;
  /** Boxes to sign off at the end of each procedure; as the house asks, if not given. */
  readonly signOff?: boolean;
}

const signedOff = ({ library }: ComposeInput, { signOff }: PrintChoice): boolean => signOff ?? library.registers.house.signOff;

export function guideBook(guide: Guide, given: ComposeInput, choice: PrintChoice = {}): Book {
  assertEdition(guide, given);
  const { head } = guide;
  const paper = choice.paper ?? head.paper ?? given.library.registers.house.paper;
  const input = { ...inLanguage(given, choice.language ?? head.language), paper, signOff: signedOff(given, choice) };
  const duplex = choice.duplex ?? head.duplex;
  const models = head.models.filter((name) => input.model === undefined || name === input.model);
  const own = { ...head, models, ...ownWords(guide, input) };
  const procedures = printedOf(guide, input);
  const inBook = new Set(procedures.map((facts) => facts.head.id));
  const issue = earlierGuide(guide, input, inBook, duplex);
  const ask = askChapter(input, false);
  const marked = markedSince([...guideChapters(guide, input, inBook, duplex), ask], issue);
  const chapters: Chapter[] = marked.slice(0, -1);
  const index = indexChapter(procedures, input, false);
  if (index !== undefined) chapters.push(index);
  chapters.push(recordChapter(own, procedures, marked, issue, input, false));
  const last = marked.slice(-1);
  chapters.push(pagesChapter(own, chapters, last, input, false), ...last);
  return typographic({
    ...settings(input, choice),
    title: own.title,
    ...(own.subtitle === undefined ? {} : { subtitle: own.subtitle }),
    number: head.id,
    ...(head.revision === undefined ? {} : { revision: head.revision }),
    ...(head.date === undefined ? {} : { date: head.date }),
    language: input.library.registers.house.language,
    paper,
    binding: choice.binding ?? head.binding ?? 'left',
    duplex,
    cover: cover(own, input),
    backCover: backCover(own, input),
    chapters,
  });
}

/** What a guide says itself is in the guide's own language; what it is made of is in that of the house. */
const inOwn = (said: string, { head }: Guide, input: ComposeInput): string =>
  head.language === undefined || head.language === languageOfText(input) ? said : saidIn(head.language, said);

const ownWords = (guide: Guide, input: ComposeInput): { title: string; subtitle?: string } => ({
  title: inOwn(guide.head.title, guide, input),
  ...(guide.head.subtitle === undefined ? {} : { subtitle: inOwn(guide.head.subtitle, guide, input) }),
});

/** The procedures of a guide that this edition holds. */
const printedOf = (guide: Guide, input: ComposeInput): readonly ProcedureFacts[] =>
  heldBy(guide, input).filter((facts) => isFor(facts, input));

/** All that an earlier issue may have had in other words. `inBook`: what counts as standing in the book wherever it is named in a procedure. */
function guideChapters(guide: Guide, input: ComposeInput, inBook: ReadonlySet<string>, duplex: boolean): Chapter[] {
  const procedures = printedOf(guide, input);
  const held = new Set(procedures.map((facts) => facts.head.id));
  const chapters: Chapter[] = [
    contentsChapter(input, duplex),
    // No blank backs in front of the first procedure: these leaves are exchanged together.
    aboutChapter(forewordOf(guide, input, inBook), input, false),
    cautionsChapter(procedures, input, false, false),
  ];
  const front = [
    symptomChapter(procedures, input, false),
    coverageChapter(procedures, input, false),
    toolsChapter(procedures, input, false),
  ];
  chapters.push(...front.filter((chapter) => chapter !== undefined));
  const printed = new Set<string>();
  for (const part of guide.tree.parts) {
    const own = part.entries.map(({ document }) => document).filter((number) => held.has(number) && !printed.has(number));
    if (own.length === 0) continue;
    const title = inOwn(part.title, guide, input);
    chapters.push({ ...partChapter(title, own, input, duplex), tab: title });
    for (const number of own) {
      printed.add(number);
      chapters.push({ ...procedureChapter(factsOf(number, input) as ProcedureFacts, input, inBook, duplex), tab: title });
    }
  }
  const back = [limitsChapter(procedures, input, duplex), documentsChapter(procedures, input, false)];
  chapters.push(...back.filter((chapter) => chapter !== undefined));
  return chapters;
}

/** As composed today: the printed words of the same language, and the figures of then where they are known. */
export function inputBefore(input: ComposeInput, earlier: LibraryFacts): ComposeInput {
  const { earlier: _, ...rest } = input;
  const before = { ...rest, library: earlier, figures: input.earlierFigures ?? input.figures };
  return inLanguage(before, input.library.registers.house.language);
}

/** Where the guide itself is not known as it was, its procedures are. */
function earlierGuide(guide: Guide, input: ComposeInput, inBook: ReadonlySet<string>, duplex: boolean): Issue | undefined {
  const { earlier } = input;
  if (earlier === undefined) return undefined;
  const before = inputBefore(input, earlier);
  const was = earlier.guides.find(({ head }) => head.id === guide.head.id);
  if (was !== undefined && noEdition(was, before) === undefined)
    return { chapters: [...guideChapters(was, before, inBook, duplex), askChapter(before, false)], whole: true };
  const known = earlier.procedures.filter(({ head }) => inBook.has(head.id));
  return { chapters: known.map((facts) => procedureChapter(facts, before, inBook, duplex)), whole: false };
}

export function procedureBook(facts: ProcedureFacts, given: ComposeInput, choice: PrintChoice = {}): Book {
  assertEdition(facts, given);
  const { head } = facts;
  const paper = choice.paper ?? given.library.registers.house.paper;
  const input = { ...inLanguage(given, choice.language), paper, signOff: signedOff(given, choice) };
  const models = head.models.map(({ name }) => name);
  const { earlier } = input;
  const before = earlier?.procedures.find((one) => one.head.id === head.id);
  const issue =
    earlier === undefined || before === undefined
      ? undefined
      : { chapters: procedureChapters(before, inputBefore(input, earlier)), whole: true };
  return typographic({
    ...settings(input, choice),
    title: head.title,
    number: head.id,
    ...(head.revision === undefined ? {} : { revision: head.revision }),
    ...(head.date === undefined ? {} : { date: head.date }),
    binding: choice.binding ?? 'left',
    duplex: choice.duplex ?? false,
    cover: cover({ ...head, models: input.model === undefined ? models : [input.model] }, input),
    chapters: markedSince(procedureChapters(facts, input), issue),
  });
}

const procedureChapters = (facts: ProcedureFacts, input: ComposeInput): readonly Chapter[] => [
  contentsChapter(input, false),
  cautionsChapter([facts], input, false, true),
  // No list of what all procedures ask for: of one it would say the same again.
  procedureChapter(facts, input, new Set([facts.head.id]), false),
];

function settings(
  input: ComposeInput,
  choice: PrintChoice,
): Pick<Book, 'publisher' | 'language' | 'paper' | 'draft' | 'footLine' | 'large' | 'obsolete'> {
  const { house } = input.library.registers;
  return {
    publisher: house.publisher,
    language: house.language,
    ...(input.written === undefined ? {} : { written: input.written }),
    paper: choice.paper ?? house.paper,
    draft: input.draft,
    ...(choice.large ? { large: true } : {}),
    ...(choice.obsolete ? { obsolete: true } : {}),
    ...footOf(input),
  };
}

/** The house's line for the foot of every leaf, after the words that tell an edition from another of the same text. */
export function footOf(input: ComposeInput): Pick<Book, 'footLine'> {
  const { house } = input.library.registers;
  const edition = input.units === undefined ? [] : [wordsOf(input).book.units[input.units]];
  const line = [...edition, ...(house.printLine === undefined ? [] : [house.printLine])].join(' ');
  return line === '' ? {} : { footLine: line };
}

function contentsChapter(input: ComposeInput, startRight: boolean): Chapter {
  const words = wordsOf(input).book;
  return { title: words.contents, anchor: 'contents', unlisted: true, startRight, blocks: [{ kind: 'contents', depth: 2 }] };
}

/** The writer's foreword, then how the guide itself is made. */
function aboutChapter(foreword: Flow, input: ComposeInput, startRight: boolean): Chapter {
  const words = wordsOf(input).guide;
  const use: Flow = [
    { kind: 'heading', level: 2, text: words.useTitle, anchor: 'use', bookmark: true },
    {
      kind: 'bullets',
      items: words.use.map(([lead, said]): Flow => [{ kind: 'paragraph', inline: [{ kind: 'strong', text: lead }, ...text(` ${said}`)] }]),
    },
  ];
  return { title: words.aboutTitle, anchor: 'about', startRight, blocks: [...foreword, ...use] };
}

/** Opens a part: which procedures it holds, and on which page. */
function partChapter(title: string, numbers: readonly string[], input: ComposeInput, startRight: boolean): Chapter {
  const words = wordsOf(input).book;
  const items = numbers.map((number): Flow => {
    const head = factsOf(number, input)?.head;
    const inline: Inline[] = [
      { kind: 'link', text: `${number}  ${head?.title ?? ''}`, anchor: chapterAnchor(number), page: true },
      ...text(head === undefined || head.symptoms.length === 0 ? '' : `: ${head.symptoms.map(({ name }) => name).join('; ')}`),
    ];
    return [{ kind: 'paragraph', inline }];
  });
  return {
    title,
    anchor: `part ${title}`,
    startRight,
    leadsIn: true,
    blocks: [
      { kind: 'paragraph', style: 'lead', inline: text(words.proceduresHere) },
      { kind: 'bullets', items },
    ],
  };
}

function procedureChapter(facts: ProcedureFacts, input: ComposeInput, inBook: ReadonlySet<string>, startRight: boolean): Chapter {
  const scope = scopeOf(facts, input, inBook);
  const { head } = facts;
  return {
    title: head.title,
    anchor: chapterAnchor(head.id),
    number: head.id,
    ...(head.revision === undefined ? {} : { revision: head.revision }),
    ...(head.date === undefined ? {} : { date: head.date }),
    startRight,
    blocks: [...frontOf(scope), ...sectionsOf(scope), ...signOff(scope)],
  };
}

/** Foreword and whatever else a guide's parts say besides their lists. */
function forewordOf(guide: Guide, input: ComposeInput, inBook: ReadonlySet<string>): BookBlock[] {
  const any = input.library.procedures[0];
  if (any === undefined) return [];
  // A foreword names no equipment, so it is composed in the scope of no procedure in particular.
  const scope: Scope = { ...scopeOf(any, input, inBook), facts: { ...any, head: { ...any.head, id: guide.head.id } } };
  const out: BookBlock[] = [];
  // A link holds printed words of its own.
  const said = (prose: Prose): Inline[] =>
    inlineOf(prose, scope).map((one) =>
      one.kind === 'link' || one.kind === 'code' ? one : { ...one, text: inOwn(one.text, guide, input) },
    );
  for (const block of guide.tree.foreword) {
    if (block.kind === 'paragraph') out.push({ kind: 'paragraph', inline: said(block.prose) });
    else if (block.kind === 'bullets')
      out.push({ kind: 'bullets', items: block.items.map((item): Flow => [{ kind: 'paragraph', inline: said(item.prose) }]) });
  }
  return out;
}

const factsOf = (number: string, input: ComposeInput): ProcedureFacts | undefined =>
  input.library.procedures.find(({ head }) => head.id === number);
