/** A guide, or one procedure, as a book: cover, contents, cautions, procedures, tool roll-up. */
import type { LibraryFacts, ProcedureFacts } from '../../procedures-schema/index.ts';
import type { Book, BookBlock, Chapter, Flow, Inline } from '../book.ts';
import { sectionsOf } from './blocks.ts';
import { cautionsChapter } from './cautions.ts';
import { frontOf } from './front.ts';
import { inlineOf } from './inline.ts';
import { toolsChapter } from './roll-up.ts';
import { type ComposeInput, chapterAnchor, type Scope, scopeOf } from './scope.ts';
import { bookWords } from './words.ts';

export type Guide = LibraryFacts['guides'][number];

const text = (said: string): Inline[] => [{ kind: 'text', text: said }];

/** Settings of the printing that the caller may choose over those of guide and house. */
export interface PrintChoice {
  readonly paper?: Book['paper'];
}

export function guideBook(guide: Guide, input: ComposeInput, choice: PrintChoice = {}): Book {
  const { head, tree } = guide;
  const duplex = head.duplex;
  const entries = tree.parts.flatMap((part) => part.entries.map(({ document }) => document));
  const inBook = new Set(entries.filter((number) => factsOf(number, input) !== undefined));
  const procedures = [...inBook].map((number) => factsOf(number, input) as ProcedureFacts);
  const chapters: Chapter[] = [contentsChapter(input, duplex)];
  const foreword = forewordOf(guide, input, inBook);
  if (foreword.length > 0) chapters.push({ title: 'About this guide', anchor: 'about', startRight: duplex, blocks: foreword });
  chapters.push(cautionsChapter(procedures, input, duplex));
  const printed = new Set<string>();
  for (const part of tree.parts) {
    const own = part.entries.map(({ document }) => document).filter((number) => inBook.has(number) && !printed.has(number));
    if (own.length === 0) continue;
    chapters.push(partChapter(part.title, own, input, duplex));
    for (const number of own) {
      printed.add(number);
      chapters.push(procedureChapter(factsOf(number, input) as ProcedureFacts, input, inBook, duplex));
    }
  }
  chapters.push(toolsChapter(procedures, input, duplex));
  return {
    ...settings(input, choice),
    title: head.title,
    ...(head.subtitle === undefined ? {} : { subtitle: head.subtitle }),
    number: head.id,
    ...(head.revision === undefined ? {} : { revision: head.revision }),
    ...(head.date === undefined ? {} : { date: head.date }),
    language: head.language ?? input.library.registers.house.language,
    paper: choice.paper ?? head.paper ?? input.library.registers.house.paper,
    binding: head.binding ?? 'left',
    duplex,
    cover: cover(head.title, head.subtitle, head.id, head.revision, head.date, head.models, input),
    chapters,
  };
}

export function procedureBook(facts: ProcedureFacts, input: ComposeInput, choice: PrintChoice = {}): Book {
  const { head } = facts;
  const inBook = new Set([head.id]);
  const models = head.models.map(({ name }) => name);
  return {
    ...settings(input, choice),
    title: head.title,
    number: head.id,
    ...(head.revision === undefined ? {} : { revision: head.revision }),
    ...(head.date === undefined ? {} : { date: head.date }),
    binding: 'left',
    duplex: false,
    cover: cover(head.title, undefined, head.id, head.revision, head.date, input.model === undefined ? models : [input.model], input),
    chapters: [
      contentsChapter(input, false),
      cautionsChapter([facts], input, false),
      procedureChapter(facts, input, inBook, false),
      toolsChapter([facts], input, false),
    ],
  };
}

function settings(input: ComposeInput, choice: PrintChoice): Pick<Book, 'publisher' | 'language' | 'paper' | 'draft' | 'footLine'> {
  const { house } = input.library.registers;
  return {
    publisher: house.publisher,
    language: house.language,
    paper: choice.paper ?? house.paper,
    draft: input.draft,
    ...(house.printLine === undefined ? {} : { footLine: house.printLine }),
  };
}

function cover(
  title: string,
  subtitle: string | undefined,
  number: string,
  revision: string | undefined,
  date: string | undefined,
  models: readonly string[],
  input: ComposeInput,
): Flow {
  const { house } = input.library.registers;
  const words = bookWords(house.language);
  const stamp = [number, revision === undefined ? '' : `${words.revision} ${revision}`, date ?? ''].filter((part) => part !== '');
  const line = (said: string, style: 'title' | 'subtitle' | 'eyebrow' | 'small' | 'body'): BookBlock => ({
    kind: 'paragraph',
    style,
    inline: text(said),
  });
  return [
    { kind: 'space', lines: 5 },
    line(house.publisher, 'eyebrow'),
    { kind: 'space', lines: 0.6 },
    line(title, 'title'),
    ...(subtitle === undefined ? [] : [{ kind: 'space', lines: 0.4 } as const, line(subtitle, 'subtitle')]),
    { kind: 'space', lines: 1.5 },
    { kind: 'rule' },
    line(stamp.join('   '), 'body'),
    ...(models.length === 0 ? [] : [line(models.join(', '), 'body')]),
    { kind: 'space', lines: 16 },
    line(words.cautions[0] as string, 'small'),
    line(words.cautions[4] as string, 'small'),
    ...(house.copyright === undefined ? [] : [line(house.copyright, 'small')]),
  ];
}

function contentsChapter(input: ComposeInput, startRight: boolean): Chapter {
  const words = bookWords(input.library.registers.house.language);
  return { title: words.contents, anchor: 'contents', unlisted: true, startRight, blocks: [{ kind: 'contents', depth: 2 }] };
}

/** Opens a part: which procedures it holds, and on which page. */
function partChapter(title: string, numbers: readonly string[], input: ComposeInput, startRight: boolean): Chapter {
  const words = bookWords(input.library.registers.house.language);
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
    blocks: [...frontOf(scope), ...sectionsOf(scope)],
  };
}

/** Foreword and whatever else a guide's parts say besides their lists. */
function forewordOf(guide: Guide, input: ComposeInput, inBook: ReadonlySet<string>): BookBlock[] {
  const any = input.library.procedures[0];
  if (any === undefined) return [];
  // A foreword names no equipment, so it is composed in the scope of no procedure in particular.
  const scope: Scope = { ...scopeOf(any, input, inBook), facts: { ...any, head: { ...any.head, id: guide.head.id } } };
  const out: BookBlock[] = [];
  for (const block of guide.tree.foreword) {
    if (block.kind === 'paragraph') out.push({ kind: 'paragraph', inline: inlineOf(block.prose, scope) });
    else if (block.kind === 'bullets')
      out.push({ kind: 'bullets', items: block.items.map((item): Flow => [{ kind: 'paragraph', inline: inlineOf(item.prose, scope) }]) });
  }
  return out;
}

const factsOf = (number: string, input: ComposeInput): ProcedureFacts | undefined =>
  input.library.procedures.find(({ head }) => head.id === number);
