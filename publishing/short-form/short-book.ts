/** A procedure, or every procedure of a guide, as a book of leaves: each with its own number, revision and count of pages. */
import type { ProcedureFacts } from '../../procedures-schema/index.ts';
import type { Book, Chapter } from '../book.ts';
import {
  assertEdition,
  type ComposeInput,
  chapterAnchor,
  footOf,
  type Guide,
  heldBy,
  inLanguage,
  inputBefore,
  isFor,
  markedSince,
  type PrintChoice,
  scopeOf,
  typographic,
  wordsOf,
} from '../compose/index.ts';
import { fill } from '../printed-words/index.ts';
import { afterSteps, beforeSteps } from './around.ts';
import { tasksOf } from './tasks.ts';

export function shortProcedure(facts: ProcedureFacts, given: ComposeInput, choice: PrintChoice = {}): Book {
  assertEdition(facts, given);
  const { head } = facts;
  const input = inLanguage(given, choice.language);
  return typographic({
    ...leaves([facts], input, undefined, choice),
    title: head.title,
    number: head.id,
    ...(head.revision === undefined ? {} : { revision: head.revision }),
    ...(head.date === undefined ? {} : { date: head.date }),
  });
}

/** The short forms of all procedures of a guide that the edition is for, in its order, each beginning on a fresh sheet. */
export function shortGuide(guide: Guide, given: ComposeInput, choice: PrintChoice = {}): Book {
  assertEdition(guide, given);
  const { head } = guide;
  const input = inLanguage(given, choice.language ?? head.language);
  const procedures = heldBy(guide, input).filter((facts) => isFor(facts, input));
  return typographic({
    ...leaves(procedures, input, partOf(guide, procedures.length, input), {
      ...choice,
      paper: choice.paper ?? head.paper ?? input.library.registers.house.paper,
    }),
    title: head.title,
    number: head.id,
    ...(head.revision === undefined ? {} : { revision: head.revision }),
    ...(head.date === undefined ? {} : { date: head.date }),
  });
}

/** Said on each checklist where those of other procedures were left out: a set that is short of some looks like the whole of it. */
function partOf(guide: Guide, here: number, input: ComposeInput): string | undefined {
  const all = heldBy(guide, input).length;
  const { model } = input;
  if (model === undefined || here === all) return undefined;
  const words = wordsOf(input).short;
  return fill(words.partOfSet, { here: String(here), all: String(all), guide: guide.head.id, model });
}

/** `part`: which part of a set it is, where it is not the whole. */
function leaves(
  procedures: readonly ProcedureFacts[],
  input: ComposeInput,
  part: string | undefined,
  choice: PrintChoice,
): Omit<Book, 'title' | 'number'> {
  const { house } = input.library.registers;
  const words = wordsOf(input).short;
  const inBook = new Set(procedures.map(({ head }) => head.id));
  return {
    publisher: house.publisher,
    language: house.language,
    ...(input.written === undefined ? {} : { written: input.written }),
    paper: choice.paper ?? house.paper,
    binding: choice.binding ?? 'left',
    duplex: choice.duplex ?? true,
    draft: input.draft,
    ...(choice.obsolete ? { obsolete: true } : {}),
    ...footOf(input),
    chapters: markedSince(
      procedures.map((facts) => chapterOf(facts, input, inBook, part)),
      issueBefore(procedures, input, inBook, part),
    ),
    short: {
      head: [
        { label: words.serial, share: 580, field: words.serial },
        { label: words.date, share: 420, field: words.date },
      ],
    },
  };
}

/** The same checklists as they were. What was none then has no bars, as in the guide: all of it is new. */
function issueBefore(
  procedures: readonly ProcedureFacts[],
  input: ComposeInput,
  inBook: ReadonlySet<string>,
  part: string | undefined,
): Parameters<typeof markedSince>[1] {
  const { earlier } = input;
  if (earlier === undefined) return undefined;
  const then = inputBefore(input, earlier);
  const known = procedures.flatMap(({ head }) => earlier.procedures.find((one) => one.head.id === head.id && isFor(one, then)) ?? []);
  return { chapters: known.map((facts) => chapterOf(facts, then, inBook, part)), whole: false };
}

function chapterOf(facts: ProcedureFacts, input: ComposeInput, inBook: ReadonlySet<string>, part: string | undefined): Chapter {
  const scope = scopeOf(facts, input, inBook);
  const tasks = tasksOf(scope);
  const { head } = facts;
  return {
    title: head.title,
    anchor: chapterAnchor(head.id),
    number: head.id,
    ...(head.revision === undefined ? {} : { revision: head.revision }),
    ...(head.date === undefined ? {} : { date: head.date }),
    startRight: true,
    blocks: [...beforeSteps(scope, tasks, part), ...tasks, ...afterSteps(scope)],
  };
}
