/** A new guide: its head, and the procedures that were chosen in their order, under a part for each machine. Puts in what they send their reader to. */
import { documentsCalled, type LibraryFacts, type ProcedureFacts } from '../checks/index.ts';
import { foldText } from '../format/index.ts';
import { spellingsOf } from '../registers/index.ts';
import { fileOf, nextGuideNumber, numberFault } from './document-numbers.ts';
import { listed } from './reading-words.ts';
import { yamlScalar } from './yaml-text.ts';

export interface NewGuideInput {
  readonly title: string;
  /** The next free one unless given. */
  readonly number?: string;
  /** Those that the chosen procedures are for unless given. */
  readonly models?: readonly string[];
  /** Document numbers, in the order in which they are bound. */
  readonly procedures: readonly string[];
  /** Year-month-day; the core knows no clock. */
  readonly date: string;
}

export type NewGuide =
  | {
      readonly ok: true;
      readonly path: string;
      readonly text: string;
      readonly number: string;
      readonly models: readonly string[];
      /** What nobody chose and is bound in all the same, because another one sends its reader there. */
      readonly also: readonly { readonly number: string; readonly because: string }[];
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly reason: string };

export function newGuide(input: NewGuideInput, library: LibraryFacts): NewGuide {
  const title = input.title.replace(/\s+/g, ' ').trim();
  if (title === '') return { ok: false, reason: 'A guide needs a title.' };
  if (!/^\d{4}-\d{2}-\d{2}$/.test(input.date)) return { ok: false, reason: 'A date is written as year-month-day: 2026-03-02.' };
  const number = (input.number ?? nextGuideNumber(library))?.trim();
  if (number === undefined) return { ok: false, reason: 'No number that follows the house pattern is free.' };
  const fault = numberFault(number, library);
  if (fault !== undefined) return { ok: false, reason: fault };
  const path = fileOf('guides', number, title);
  if (library.paths.has(path)) return { ok: false, reason: `The library has a file ${path} already.` };
  const chosen: ProcedureFacts[] = [];
  for (const own of new Set(input.procedures)) {
    const facts = numbered(library, own);
    if (!facts) return { ok: false, reason: `The library has no procedure ${own}.` };
    chosen.push(facts);
  }
  const { bound, also } = withCalled(chosen, library);
  const models = modelsOf(input.models, bound, library);
  if ('reason' in models) return { ok: false, ...models };
  const parts = partsOf(bound, library);
  const text = [
    '---',
    `id: ${yamlScalar(number)}`,
    `title: ${yamlScalar(title)}`,
    'revision: "A"',
    `date: ${input.date}`,
    ...(models.names.length === 0 ? [] : ['models:', ...models.names.map((name) => `  - ${yamlScalar(name)}`)]),
    '---',
    '',
    ...parts.flatMap((part) => [`## ${part.title}`, '', ...part.numbers.map((own) => `- [${own}]`), '']),
  ].join('\n');
  const notes = [
    ...also.map((one) => `${one.number} is bound in too, because ${one.because} sends its reader there.`),
    ...(bound.length === 0 ? ['It binds in nothing yet: put procedures under a heading, as "- [NUMBER]".'] : []),
    'Write a foreword above the first heading: who it is for, and what comes before any work.',
  ];
  return { ok: true, path, text, number, models: models.names, also, notes };
}

const numbered = ({ procedures }: LibraryFacts, number: string): ProcedureFacts | undefined =>
  procedures.find(({ head }) => head.id === number);

/** Each that is sent to stands right behind the one that sends there first. */
function withCalled(chosen: readonly ProcedureFacts[], library: LibraryFacts) {
  const bound = [...chosen];
  const also: { readonly number: string; readonly because: string }[] = [];
  for (let at = 0; at < bound.length; at += 1) {
    const facts = bound[at] as ProcedureFacts;
    const called = [...new Set(documentsCalled(facts))].flatMap((number) => numbered(library, number) ?? []);
    const missing = called.filter((one) => !bound.includes(one));
    bound.splice(at + 1, 0, ...missing);
    also.push(...missing.map(({ head }) => ({ number: head.id, because: facts.head.id })));
  }
  return { bound, also };
}

function modelsOf(
  given: readonly string[] | undefined,
  bound: readonly ProcedureFacts[],
  { registers }: LibraryFacts,
): { readonly names: readonly string[] } | { readonly reason: string } {
  const spellings = spellingsOf(registers.models);
  const wanted = given ?? bound.flatMap(({ head }) => head.models.map(({ name }) => name));
  const unknown = wanted.find((name) => !spellings.has(foldText(name)));
  // What a procedure names and no register knows is that procedure's own trouble.
  if (given !== undefined && unknown !== undefined) return { reason: `"${unknown}" is no registered model.` };
  const named = new Set(wanted.flatMap((name) => spellings.get(foldText(name)) ?? []));
  return { names: registers.models.map(({ name }) => name).filter((name) => named.has(name)) };
}

/** A part for each machine where those of one machine stand together; where the order is another one it is kept, in one part. */
function partsOf(bound: readonly ProcedureFacts[], { registers }: LibraryFacts): readonly { title: string; numbers: readonly string[] }[] {
  const families = new Map(registers.models.map((model) => [foldText(model.name), model.family]));
  const runs: { title: string; numbers: string[] }[] = [];
  for (const { head } of bound) {
    const own = [...new Set(head.models.flatMap(({ name }) => families.get(foldText(name)) ?? []))];
    const title = own.length === 0 ? 'Procedures' : capital(listed(own));
    const last = runs.at(-1);
    if (last?.title === title) last.numbers.push(head.id);
    else runs.push({ title, numbers: [head.id] });
  }
  const apart = new Set(runs.map(({ title }) => title)).size < runs.length;
  return apart ? [{ title: 'Procedures', numbers: bound.map(({ head }) => head.id) }] : runs;
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
