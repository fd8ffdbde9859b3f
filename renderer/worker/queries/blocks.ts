/** Notices, branches and figures as their forms fill them in: what may be chosen, and the text that would stand there. Nothing is changed here. */
import {
  type Branch,
  branchesOn,
  type FigureInput,
  type Insertion,
  insertBranching as insertBranchingIn,
  insertFigures as insertFiguresIn,
  insertNotice as insertNoticeIn,
  type NoticeInput,
} from '../../../procedures-schema/assist/index.ts';
import { BRANCH_WORD, READ_LANGUAGE } from '../../../procedures-schema/index.ts';
import type { StandingNotice } from '../../../procedures-schema/registers/model.ts';
import type { LibraryModel } from '../library-model.ts';
import type { AtCaret } from './assist.ts';
import { NOT_HERE } from './forms.ts';

export type Standing = Pick<StandingNotice, 'name' | 'word' | 'text'>;

/** Those of the register, in its order. */
export function standingNotices(model: LibraryModel, _: Record<string, never>): readonly Standing[] {
  return model.facts.registers.notices.map(({ name, word, text }) => ({ name, word, text }));
}

export function insertNotice(model: LibraryModel, ask: AtCaret & { readonly input: NoticeInput }): Insertion {
  const facts = model.procedure(ask.file);
  return facts ? insertNoticeIn(facts, model.facts, ask.offset, ask.input) : NOT_HERE;
}

/** What a step of this procedure may branch on, with the outcomes that must be answered. */
export function branchChoices(
  model: LibraryModel,
  ask: { readonly file: string },
): readonly { readonly name: string; readonly verb: 'Check' | 'Measure'; readonly branches: readonly Branch[] }[] {
  return (model.procedure(ask.file)?.head.measurements ?? []).map(({ name, sensed }) => ({
    name,
    verb: sensed === undefined ? 'Measure' : 'Check',
    branches: branchesOn(sensed !== undefined),
  }));
}

/** Of the texts, whatever that of the page is: what they are read in, and what a branch begins with there. */
export const textLanguage = (_: LibraryModel, __: Record<string, never>): { readonly language: string; readonly branch: string } => ({
  language: READ_LANGUAGE,
  branch: BRANCH_WORD,
});

export function insertBranching(
  model: LibraryModel,
  ask: AtCaret & { readonly step?: string; readonly branches: readonly Branch[] },
): Insertion {
  const facts = model.procedure(ask.file);
  return facts ? insertBranchingIn(facts, model.facts, ask.offset, ask) : NOT_HERE;
}

export function insertFigures(model: LibraryModel, ask: AtCaret & { readonly figures: readonly FigureInput[] }): Insertion {
  const facts = model.procedure(ask.file);
  return facts ? insertFiguresIn(facts, model.facts, ask.offset, ask.figures) : NOT_HERE;
}
