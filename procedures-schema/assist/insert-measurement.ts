/** Puts in a measurement as a whole: its entry in the front matter, its limits with a table for each model, and the step that measures it. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { TextEdit } from '../finding.ts';
import { foldText } from '../format/index.ts';
import { insertAfter } from '../numbering/index.ts';
import { formEdits, frontMatterForm, type MeasurementLine } from './front-matter-form.ts';
import { branchLines, freeId } from './insert-blocks.ts';
import { toolEdits } from './insert-sections.ts';
import { endOfContent, type Insertion, insertionOf, newSection, stepAt } from './insertion.ts';
import { limitCell } from './limit-cell.ts';

export interface LimitRow {
  readonly model: string;
  /** As typed, "0.5 mm"; '' where it is not known yet, "-" where it does not apply. */
  readonly lower: string;
  readonly upper: string;
}

export interface MeasurementInput {
  readonly name: string;
  /** length, torque, ...; of something sensed: feel, sound, look. */
  readonly quantity: string;
  readonly at?: string;
  readonly with?: string;
  /** One set of limits for all models, a row for each, or what passes and fails. */
  readonly limits:
    | { readonly kind: 'one'; readonly lower?: string; readonly upper?: string }
    | { readonly kind: 'models'; readonly rows: readonly LimitRow[] }
    | { readonly kind: 'sensed'; readonly pass: string; readonly fail: string };
}

export function insertMeasurement(facts: ProcedureFacts, library: LibraryFacts, offset: number, input: MeasurementInput): Insertion {
  const name = input.name.trim();
  if (name === '') return { ok: false, reason: 'A measurement needs a name.' };
  const [other] = facts.names.lookup(name);
  if (other) return { ok: false, reason: `"${name}" is the ${other.kind} ${other.name} already.` };
  const at = stepAt(facts, offset);
  if (!at) return { ok: false, reason: 'Put the caret into a step: the one that measures goes after it.' };
  const { limits } = input;
  const tableId = freeId(facts, `${name}-limits`);
  const line: MeasurementLine = {
    name,
    quantity: input.quantity,
    ...(input.at === undefined ? {} : { at: input.at }),
    ...(input.with === undefined ? {} : { with: input.with }),
    ...(limits.kind === 'sensed'
      ? { pass: limits.pass, fail: limits.fail }
      : { limits: limits.kind === 'models' ? `table ${tableId}` : oneLimit(limits) }),
  };
  const known = frontMatterForm(facts, library).fields.find(({ key }) => key === 'measurements')?.measurements ?? [];
  const table = limits.kind === 'models' ? [tableEdit(facts, library, name, tableId, limits.rows)] : [];
  const registered =
    input.with === undefined ? undefined : library.registers.tools.find((tool) => foldText(tool.name) === foldText(input.with ?? ''));
  const sensed = limits.kind === 'sensed';
  const verb = sensed ? 'Check' : 'Measure';
  const lead = `{#${freeId(facts, name)}} ${verb} the [${name}]${input.with === undefined ? '' : ` with the [${input.with}]`}.`;
  const steps = insertAfter(facts.tree, at.step, [lead, ...branchLines(sensed)], library.registers.house.numbering);
  const main = steps.find((edit) => edit.text.includes(lead));
  if (!main) return { ok: false, reason: 'No place was found for the step that measures.' };
  const edits: readonly TextEdit[] = [
    ...formEdits(facts, 'measurements', [...known, line]),
    ...(registered ? toolEdits(facts, library, [{ name: registered.name }]) : []),
    ...table,
    ...steps,
  ];
  return insertionOf(
    `Insert the measurement ${name}`,
    edits,
    main,
    main.text.indexOf(lead),
    library,
    notesOf(input, registered !== undefined),
  );
}

function oneLimit({ lower, upper }: { readonly lower?: string; readonly upper?: string }): Readonly<Record<string, string>> {
  return { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
}

function notesOf(input: MeasurementInput, registered: boolean): readonly string[] {
  const { limits } = input;
  const open =
    limits.kind === 'models' ? limits.rows.filter(({ lower, upper }) => lower === '' || upper === '').map(({ model }) => model) : [];
  return [
    ...(open.length > 0 ? [`Limits are missing for ${open.join(', ')}.`] : []),
    ...(input.at === undefined ? ['Say where it is measured, and in which state.'] : []),
    ...(input.with === undefined && limits.kind !== 'sensed' ? ['Say with what it is measured.'] : []),
    ...(input.with !== undefined && !registered ? [`"${input.with}" is no registered tool.`] : []),
    'Say what is done when it is not right.',
  ];
}

/** The table goes to the end of the background, which is made where there is none. */
function tableEdit(facts: ProcedureFacts, library: LibraryFacts, name: string, id: string, rows: readonly LimitRow[]): TextEdit {
  const cells = rows.map(
    ({ model, lower, upper }) => `| ${model} | ${limitCell(lower, 'lower', library)} | ${limitCell(upper, 'upper', library)} |`,
  );
  const table = [`| model | ${name} lower | ${name} upper |`, '|---|---|---|', ...cells, '', `{#${id}}`].join('\n');
  const background = facts.tree.sections.find((section) => foldText(section.title) === 'background');
  if (!background)
    return newSection(
      facts,
      facts.tree.sections.find((section) => !section.prose),
      'Background',
      table,
    );
  const at = endOfContent(facts.source.text, background.span.start, background.span.end);
  return { file: facts.file, start: at, end: at, text: `\n\n${table}` };
}
