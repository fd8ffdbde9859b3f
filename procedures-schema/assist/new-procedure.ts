/** A new procedure: its number by the house pattern, and a skeleton with what the register requires, or a copy of one that exists. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import { applyEdits, foldText } from '../format/index.ts';
import { spellingsOf } from '../registers/index.ts';
import { formEdits } from './front-matter-form.ts';
import { numbered } from './insertion.ts';
import { makeSafeSteps, restoreSteps, safeNotes, safeTools, type WantedTool } from './make-safe.ts';
import { coverPhrases, fastenerPhrases, machineWord } from './phrases.ts';
import { listed } from './reading-words.ts';
import { yamlScalar } from './yaml-text.ts';

export interface NewProcedureInput {
  readonly title: string;
  readonly models: readonly string[];
  /** Year-month-day; the core knows no clock. */
  readonly date: string;
  /** Document number of the procedure to copy; absent: from nothing. */
  readonly from?: string;
  /** A cover that the work needs off; its screws go with it. */
  readonly cover?: string;
  /** The next free one unless given. */
  readonly number?: string;
}

export type NewProcedure =
  | { readonly ok: true; readonly path: string; readonly text: string; readonly number: string; readonly notes: readonly string[] }
  | { readonly ok: false; readonly reason: string };

export function newProcedure(input: NewProcedureInput, library: LibraryFacts): NewProcedure {
  const { registers } = library;
  const spellings = spellingsOf(registers.models);
  const models = input.models.flatMap((name) => spellings.get(foldText(name)) ?? []);
  const unknown = input.models.find((name) => !spellings.has(foldText(name)));
  if (unknown !== undefined) return { ok: false, reason: `"${unknown}" is no registered model.` };
  if (models.length === 0) return { ok: false, reason: 'Choose the models that the procedure is for.' };
  if (!/^\d{4}-\d{2}-\d{2}$/.test(input.date)) return { ok: false, reason: 'A date is written as year-month-day: 2026-03-02.' };
  const title = input.title.replace(/\s+/g, ' ').trim();
  if (title === '') return { ok: false, reason: 'A procedure needs a title: what it does.' };
  const number = input.number ?? nextNumber(library, models);
  if (number === undefined) return { ok: false, reason: 'No number that follows the house pattern is free.' };
  if ([...library.procedures, ...library.guides].some(({ head }) => head.id === number))
    return { ok: false, reason: `${number} is taken.` };
  const path = `procedures/${number}-${slug(title)}.md`;
  if (library.paths.has(path)) return { ok: false, reason: `The library has a file ${path} already.` };
  const made = input.from === undefined ? skeleton(input, title, number, models, library) : copied(input, title, number, models, library);
  return 'reason' in made ? { ok: false, ...made } : { ok: true, path, number, ...made };
}

type Made = { readonly text: string; readonly notes: readonly string[] } | { readonly reason: string };

function copied(input: NewProcedureInput, title: string, number: string, models: readonly string[], library: LibraryFacts): Made {
  const facts = library.procedures.find(({ head }) => head.id === input.from);
  if (!facts) return { reason: `The library has no procedure ${input.from}.` };
  const edits = [
    ...formEdits(facts, 'id', number),
    ...formEdits(facts, 'title', title),
    ...formEdits(facts, 'revision', 'A'),
    ...formEdits(facts, 'date', input.date),
    ...formEdits(
      facts,
      'models',
      models.map((name) => ({ name })),
    ),
  ];
  const missing = facts.head.models
    .filter(({ name }) => !models.some((model) => foldText(model) === foldText(name)))
    .map(({ name }) => name);
  return {
    text: applyEdits(facts.source.text, edits),
    notes: [
      `A copy of ${facts.head.id}: read every step beside the machine before it goes out.`,
      ...(missing.length > 0 ? [`The text may still speak of ${listed(missing)}.`] : []),
    ],
  };
}

function skeleton(input: NewProcedureInput, title: string, number: string, models: readonly string[], library: LibraryFacts): Made {
  const { registers } = library;
  const names = new Set(registers.models.filter(({ name }) => models.includes(name)).map(({ family }) => family));
  const [family, ...others] = registers.families.filter(({ name }) => names.has(name));
  if (!family) return { reason: 'The register has no family for these models.' };
  if (others.length > 0) return { reason: `These models are of several families: ${listed([...names])}. A procedure begins with one.` };
  const safe = { family, registers, models };
  const cover = input.cover === undefined ? undefined : family.covers.find(({ name }) => name === input.cover);
  if (input.cover !== undefined && !cover) return { reason: `The ${family.name} has no cover "${input.cover}".` };
  const fasteners = cover ? family.fasteners.filter(({ name }) => cover.fasteners.includes(name)) : [];
  const open = cover ? [...fasteners.map((one) => `${fastenerPhrases(one)[0]?.text}.`), `${coverPhrases(cover)[0]?.text}.`] : [];
  const close = cover ? [`${coverPhrases(cover)[1]?.text}.`, ...fasteners.map((one) => `${fastenerPhrases(one)[2]?.text}.`)] : [];
  const tools = safeTools(safe);
  const list = (key: string, values: readonly WantedTool[]): string =>
    values.length === 0 ? `${key}: none` : `${key}:\n${values.map(entry).join('\n')}`;
  const entry = ({ name, quantity }: WantedTool): string =>
    quantity === undefined ? `  - ${yamlScalar(name)}` : `  - name: ${yamlScalar(name)}\n    quantity: ${yamlScalar(quantity)}`;
  const text = `---
id: ${yamlScalar(number)}
title: ${yamlScalar(title)}
revision: "A"
date: ${input.date}
${list(
  'models',
  models.map((name) => ({ name })),
)}
starts with: closed
ends with: closed
people: 1
${list('tools', tools)}
consumables: none
parts: none
protection: none
---

## When to use

Use this procedure to ${title.charAt(0).toLowerCase()}${title.slice(1)}.

## Make safe

${numbered(makeSafeSteps(safe))}
${open.length === 0 ? '' : `\n## Open\n\n${numbered(open)}\n`}
## Close up

${numbered([...close, ...restoreSteps(safe)])}

## Records

Write down the model, the serial number, and the date.
`;
  return { text, notes: [...safeNotes(safe), `Say when the ${machineWord(family)} needs this, how long it takes, and who may do it.`] };
}

// ---------------------------------------------------------------- numbers

/** The number after the highest of the same family, else of the library, else the first of the pattern. Steps of ten are kept. */
export function nextNumber(library: LibraryFacts, models: readonly string[]): string | undefined {
  const pattern = library.registers.house.documentNumber;
  const fits = fitting(pattern);
  const taken = new Set(
    [...library.procedures, ...library.guides].map(({ head }) => head.id).concat(library.registers.documents.map(({ number }) => number)),
  );
  const families = new Set(library.registers.models.filter(({ name }) => models.includes(name)).map(({ family }) => family));
  const ofFamily = (facts: ProcedureFacts): boolean =>
    facts.head.models.some(({ name }) => families.has(library.registers.models.find((model) => model.name === name)?.family ?? ''));
  const numbers = (list: readonly ProcedureFacts[]): string[] =>
    list
      .map(({ head }) => head.id)
      .filter((id) => /\d+$/.test(id) && fits(id))
      .sort(byCount);
  const own = numbers(library.procedures.filter(ofFamily));
  const from = own.at(-1) ?? numbers(library.procedures).at(-1);
  if (from === undefined) {
    const first = firstOf(pattern);
    return first === undefined || !fits(first) ? undefined : taken.has(first) ? after(first, 1, taken, fits) : first;
  }
  const tens = own.length > 0 ? own.every((id) => id.endsWith('0')) : from.endsWith('0');
  return after(from, tens ? 10 : 1, taken, fits) ?? after(from, 1, taken, fits);
}

function byCount(a: string, b: string): number {
  return a.length - b.length || (a < b ? -1 : a > b ? 1 : 0);
}

/** Counts on from a number, its digits kept in width, until one is free. */
function after(from: string, step: number, taken: ReadonlySet<string>, fits: (id: string) => boolean): string | undefined {
  const digits = /\d+$/.exec(from)?.[0] ?? '';
  const head = from.slice(0, from.length - digits.length);
  for (let count = Number(digits) + step, tries = 0; tries < 10_000; count += step, tries++) {
    const id = head + String(count).padStart(digits.length, '0');
    if (!fits(id)) return undefined;
    if (!taken.has(id)) return id;
  }
  return undefined;
}

function fitting(pattern: string | undefined): (id: string) => boolean {
  if (pattern === undefined) return () => true;
  try {
    const whole = new RegExp(`^(?:${pattern})$`, 'u');
    return (id) => whole.test(id);
  } catch {
    return () => true;
  }
}

/** The first number of a simple pattern: letters, digits and counts of digits. */
function firstOf(pattern: string | undefined): string | undefined {
  if (pattern === undefined) return 'P-1000';
  const made = pattern
    .replace(/(?:\\d|\[0-9\])\{(\d+)(?:,\d*)?\}/g, (_, count: string) => `1${'0'.repeat(Math.max(0, Number(count) - 1))}`)
    .replace(/(?:\\d|\[0-9\])[+]?/g, '1')
    .replace(/\\([.-])/g, '$1');
  return /^[\w./-]+$/.test(made) ? made : undefined;
}

function slug(title: string): string {
  const words = foldText(title)
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return words.split('-').slice(0, 6).join('-') || 'procedure';
}
