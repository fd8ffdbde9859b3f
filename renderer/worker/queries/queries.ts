/** The questions that the page may put to the worker, by name. */
import { complete, hover, named, usesOfDocument } from './assist.ts';
import { branchChoices, insertBranching, insertFigures, insertNotice, standingNotices, textLanguage } from './blocks.ts';
import { find, insert, rename, replace } from './changes.ts';
import { film, filmFiles } from './film.ts';
import {
  form,
  formEdits,
  insertMeasurement,
  limitsEdits,
  limitsForm,
  newGuide,
  newProcedure,
  ownNumber,
  readingChoices,
  registerName,
  sayOutright,
} from './forms.ts';
import { house } from './house.ts';
import { margin } from './margin.ts';
import { overview } from './overview.ts';
import type { printing } from './printing.ts';
import { pinLine, reviewOf } from './record.ts';
import { compare, coverage, graph, walk } from './review.ts';
import { spelling } from './spelling.ts';
import { questions, where } from './where.ts';

export const queries = {
  overview,
  margin,
  complete,
  hover,
  named,
  usesOfDocument,
  rename,
  find,
  replace,
  insert,
  form,
  formEdits,
  newProcedure,
  newGuide,
  ownNumber,
  insertMeasurement,
  limitsForm,
  limitsEdits,
  insertFigures,
  insertNotice,
  insertBranching,
  standingNotices,
  branchChoices,
  textLanguage,
  readingChoices,
  sayOutright,
  registerName,
  spelling,
  film,
  filmFiles,
  walk,
  graph,
  coverage,
  compare,
  reviewOf,
  pinLine,
  house,
  where,
  questions,
};

type Queries = typeof queries & typeof printing;
export type QueryName = keyof Queries;
export type Ask<Q extends QueryName> = Parameters<Queries[Q]>[1];
export type Answer<Q extends QueryName> = ReturnType<Queries[Q]>;

export type { NamedHere } from './assist.ts';
export type { FindAsk, InsertAsk } from './changes.ts';
export type { Film } from './film.ts';
export type { House } from './house.ts';
export type { DocumentLine, Overview, OverviewNews } from './overview.ts';
export type { Edition, Made, PagesShown, ProofShown, ShownPicture } from './pages.ts';
export type { Bound, ReviewOf } from './record.ts';
export type { Earlier } from './review.ts';
