/** What composing one procedure needs besides its text: the library, the edition, what else stands in the same book. */
import type { Block, LabelledStep, LibraryFacts, ProcedureFacts, Section, Step, StepChild, Table } from '../../procedures-schema/index.ts';
import type { FilmLink } from '../../procedures-schema/narration/index.ts';
import type { Book, Image } from '../book.ts';
import type { BookWords } from '../printed-words/index.ts';
import { wordsOf } from './spoken.ts';
import type { UnitsEdition } from './units-edition.ts';

export interface ComposeInput {
  readonly library: LibraryFacts;
  /** Figures by path; what is missing here is printed as missing. */
  readonly figures: ReadonlyMap<string, Image>;
  readonly draft: boolean;
  /** Language of the text, where what stands around it is printed in another. */
  readonly written?: string;
  /** What it is printed on, where that is not the paper of the house. */
  readonly paper?: Book['paper'];
  /** The library as it was: what is not the same there gets a bar in the margin. */
  readonly earlier?: LibraryFacts;
  /** The figures as they were then, by path; where they are not given, none counts as changed. */
  readonly earlierFigures?: ReadonlyMap<string, Image>;
  /** Boxes to sign off at the end of each bound procedure. */
  readonly signOff?: boolean;
  /** Registered name of the only model to print. */
  readonly model?: string;
  /** Units in another order than the house prints them. */
  readonly units?: UnitsEdition;
  /** Where films show the steps of procedures, by document number. */
  readonly films?: ReadonlyMap<string, readonly FilmLink[]>;
}

export interface Scope {
  readonly input: ComposeInput;
  readonly facts: ProcedureFacts;
  readonly words: BookWords;
  /** Document numbers that stand in the same book. */
  readonly inBook: ReadonlySet<string>;
  /** Numbers of figures and tables, from one in each procedure, by the object itself. */
  readonly figureNumbers: ReadonlyMap<Block | StepChild, number>;
  readonly tableNumbers: ReadonlyMap<Block | StepChild, number>;
  readonly byId: ReadonlyMap<string, Block | StepChild>;
}

export function scopeOf(facts: ProcedureFacts, input: ComposeInput, inBook: ReadonlySet<string>): Scope {
  const figureNumbers = new Map<Block | StepChild, number>();
  const tableNumbers = new Map<Block | StepChild, number>();
  const byId = new Map<string, Block | StepChild>();
  for (const block of everyBlock([...facts.tree.preface, ...facts.tree.sections.flatMap((section) => section.blocks)])) {
    if (block.kind === 'figure') {
      figureNumbers.set(block, figureNumbers.size + 1);
      if (block.id !== undefined) byId.set(`figure ${block.id}`, block);
    } else if (block.kind === 'table') {
      tableNumbers.set(block, tableNumbers.size + 1);
      if (block.id !== undefined) byId.set(`table ${block.id}`, block);
    }
  }
  const words = wordsOf(input).book;
  return { input, facts, words, inBook, figureNumbers, tableNumbers, byId };
}

/** In the order of the text. */
export function* everyBlock(blocks: readonly (Block | StepChild)[]): Iterable<Block | StepChild> {
  for (const block of blocks) {
    yield block;
    switch (block.kind) {
      case 'steps':
      case 'substeps':
        for (const step of block.steps) yield* everyBlock(step.children);
        break;
      case 'branches':
        for (const branch of block.branches) yield* everyBlock(branch.children);
        break;
      case 'bullets':
        for (const item of block.items) yield* everyBlock(item.blocks);
        break;
      case 'notice':
        yield* everyBlock(block.blocks);
        break;
      default:
        break;
    }
  }
}

export const tableNamed = (scope: Scope, id: string): Table | undefined => {
  const block = scope.byId.get(`table ${id}`);
  return block?.kind === 'table' ? block : undefined;
};

// Anchors: what links and bookmarks of one book call their places.
export const chapterAnchor = (number: string): string => `doc ${number}`;
export const sectionAnchor = (number: string, section: Section): string => `doc ${number} section ${section.id}`;
export const stepAnchor = (number: string, order: number): string => `doc ${number} step ${order}`;
export const thingAnchor = (number: string, kind: 'figure' | 'table', count: number): string => `doc ${number} ${kind} ${count}`;

/**
 * A step with its label. A numbered list in a section of prose is no part of the walk and has none: it is printed with the number that was
 * typed, and stands in no state. Its order comes after that of all real steps, so that anchors stay apart.
 */
export function labelled(step: Step, { facts }: Pick<Scope, 'facts'>): LabelledStep {
  const known = facts.read.labels.byStep.get(step);
  if (known !== undefined) return known;
  const label = step.typed.raw.replace(/[.):\s]+$/, '');
  const inside = ({ span }: Section): boolean => span.start <= step.span.start && step.span.end <= span.end;
  const section = (facts.tree.sections.find(inside) ?? facts.tree.sections[0]) as Section;
  return { step, section, label, fullLabel: label, path: [step.typed.ordinal ?? 1], order: AFTER_ALL + step.span.start };
}
const AFTER_ALL = 1_000_000;
