/** What could not be printed as asked, told as findings are: where in the text it comes from, what, why it matters, and what would be right. */
import type { LibraryFacts, ProcedureFacts, Span } from '../procedures-schema/index.ts';
import type { Book } from './book.ts';
import { type ComposeInput, changedSections, scopeOf } from './compose/index.ts';
import type { LayoutNote } from './layout/index.ts';

export interface PrintNote {
  readonly kind: LayoutNote['kind'] | 'revision-kept';
  readonly message: string;
  readonly why: string;
  readonly expected: string;
  /** The file it comes from and the place in it; undefined: no one place. */
  readonly file?: string;
  readonly span?: Span;
}

const REASONS: Readonly<Record<PrintNote['kind'], Pick<PrintNote, 'why' | 'expected'>>> = {
  'missing-glyph': { why: 'Where it stands nobody can read it.', expected: 'Another character, or the word for it.' },
  'group-too-tall': {
    why: 'A notice that stands on another page than its step is overlooked, and of a step that is parted one half is not done.',
    expected: 'Shorter notices, a step that is split in two, or larger paper.',
  },
  'dead-link': {
    why: 'A reader is sent to a place that is not in this edition.',
    expected: 'A reference to something that is printed in it.',
  },
  'bad-image': {
    why: 'An empty frame stands in its place, and the step that needs the figure is done without it.',
    expected: 'An SVG, PNG or JPEG file in figures/ that opens.',
  },
  'figure-part': {
    why: 'What is missing in a figure may be what it is shown for.',
    expected: 'The figure saved with its text, lines and shapes as plain SVG.',
  },
  'small-print': {
    why: 'A copy, or bad light, takes the smallest print first.',
    expected: 'Larger print in the figure, or a figure that is not as wide.',
  },
  'long-words': {
    why: 'A title that is cut at the head of a leaf may be taken for another one.',
    expected: 'A shorter title, or larger paper.',
  },
  'unsettled-pages': {
    why: 'A reference may name the page beside the right one.',
    expected: 'Other words around one of the references, so that the pages come to rest.',
  },
  'revision-kept': {
    why: 'Whoever holds the old leaf and the new one cannot tell which of them is in force.',
    expected: 'Another revision and date in the head of the procedure.',
  },
  'many-leaves': {
    why: 'Leaves that are many get out of order and are lost; a checklist is meant to be one or two sheets.',
    expected: 'Larger paper, a booklet that is folded, or the procedure split where one part can be done without the other.',
  },
};

export function printNotes(notes: readonly LayoutNote[], library: LibraryFacts): readonly PrintNote[] {
  return notes.map(({ kind, message, anchor, character }) => ({
    kind,
    message,
    ...REASONS[kind],
    ...(character !== undefined ? characterIn(character, library) : anchor === undefined ? {} : placeIn(anchor, library)),
  }));
}

/** Procedures of a book with bars that have the revision of the issue before. */
export function keptRevisions({ chapters }: Book, { earlier, library }: Pick<ComposeInput, 'earlier' | 'library'>): readonly PrintNote[] {
  return chapters.flatMap(({ number, revision, anchor = '', blocks }): PrintNote[] => {
    const before = earlier?.procedures.find(({ head }) => head.id === number)?.head;
    if (number === undefined || before === undefined || before.revision !== revision || changedSections(blocks).length === 0) return [];
    const message = `${number} is not what it was in the issue before, and both are revision ${revision ?? '(none)'}.`;
    return [{ kind: 'revision-kept', message, ...REASONS['revision-kept'], ...placeIn(anchor, library) }];
  });
}

type Place = Pick<PrintNote, 'file' | 'span'>;

/** Where it is typed first. */
function characterIn(character: string, { procedures, guides }: LibraryFacts): Place {
  for (const { file, tree } of [...procedures, ...guides]) {
    const start = tree.source.text.indexOf(character);
    if (start >= 0) return { file, span: { start, end: start + character.length } };
  }
  return {};
}

function placeIn(anchor: string, library: LibraryFacts): Place {
  for (const facts of library.procedures) {
    const own = `doc ${facts.head.id}`;
    if (anchor !== own && !anchor.startsWith(`${own} `)) continue;
    return { file: facts.file, span: spanOf(anchor.slice(own.length + 1), facts, library) };
  }
  return {};
}

const TOP: Span = { start: 0, end: 0 };

function spanOf(place: string, facts: ProcedureFacts, library: LibraryFacts): Span {
  const [, kind, name = ''] = /^(\w+) (.+)$/.exec(place) ?? [];
  if (kind === 'step') return facts.read.labels.steps.find(({ order }) => String(order) === name)?.step.span ?? TOP;
  if (kind === 'section') return facts.tree.sections.find(({ id }) => id === name)?.span ?? TOP;
  const { figureNumbers, tableNumbers } = scopeOf(facts, { library, figures: new Map(), draft: false }, new Set());
  const numbers = kind === 'figure' ? figureNumbers : tableNumbers;
  const found = kind === 'figure' || kind === 'table' ? [...numbers].find(([, count]) => String(count) === name)?.[0] : undefined;
  return found?.span ?? TOP;
}
