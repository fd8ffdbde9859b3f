/** A new procedure: its number by the house pattern, and a skeleton with what the register requires, or a copy of one that exists. */
import type { LibraryFacts } from '../checks/index.ts';
import { applyEdits, foldText } from '../format/index.ts';
import { spellingsOf } from '../registers/index.ts';
import { fileOf, nextNumber, numberFault } from './document-numbers.ts';
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
  const number = (input.number ?? nextNumber(library, models))?.trim();
  if (number === undefined) return { ok: false, reason: 'No number that follows the house pattern is free.' };
  const fault = numberFault(number, library);
  if (fault !== undefined) return { ok: false, reason: fault };
  const path = fileOf('procedures', number, title);
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
