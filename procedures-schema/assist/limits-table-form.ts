/**
 * A table of limits that stands in the text, as a form: the cells that a measurement reads, by row and column, and edits of what was typed
 * otherwise. What it does not understand it leaves as it is and says so. Puts in no new table; `insert-measurement.ts` does.
 */
import { eachBlock, type LibraryFacts, measuredOf, type ProcedureFacts } from '../checks/index.ts';
import type { TextEdit } from '../finding.ts';
import type { Cell, Table } from '../format/index.ts';
import { decimalMarkOf, limitModels, namedRange, tableLimits } from '../quantities/index.ts';
import { type Insertion, insertionOf, lineStart, stepAt } from './insertion.ts';
import { bareCell, limitCell } from './limit-cell.ts';
import { type LimitsColumn, type LimitsForm, notesOf, type TypedCell } from './limits-form-model.ts';
import { measurementAt } from './limits-front-form.ts';

/** Of the table that the caret stands in, or the one that the step at the caret is held against. */
export function tableForm(
  facts: ProcedureFacts,
  library: LibraryFacts,
  offset: number,
): LimitsForm | { readonly ok: false; readonly reason: string } {
  const table = tableAt(facts, library, offset);
  if (!table) return { ok: false, reason: 'Put the caret into limits, of a table or of the front matter, or into the step that measures.' };
  const read = readingOf(facts, library, table);
  if (read.columns.length === 0)
    return {
      ok: false,
      reason: 'No measurement in the front matter reads its limits from this table, so nothing of it is known to be a limit.',
    };
  const form = read.columns.map(({ index, end }) => ({ index, end, heading: rawCell(facts, table.head[index]) }));
  const others = table.head.map((cell, index) => ({ index, heading: rawCell(facts, cell) }));
  const stray = table.rows.filter((row) => !read.knows(rawCell(facts, row.cells[0])));
  const known = table.rows.flatMap((row, index) => {
    const head = rawCell(facts, row.cells[0]);
    if (stray.includes(row)) return [];
    return [{ index, head, cells: form.map(({ index: at, end }) => shownCell(rawCell(facts, row.cells[at]), end, library)) }];
  });
  const missing = read.models.filter((model) => !known.some(({ head }) => read.modelOf(head) === model));
  return {
    at: table.span.start,
    measurements: read.measurements,
    where: 'table',
    columns: form,
    rows: [...known, ...missing.map((head) => ({ index: undefined, head, cells: form.map(() => '') }))],
    kept: [
      ...others
        .filter(({ index }) => index > 0 && !form.some((own) => own.index === index))
        .map(({ heading }) => `The column "${heading}" holds no limits that are understood here; it stays as it is.`),
      ...stray.map((row) => `The row "${rawCell(facts, row.cells[0])}" is for no model of this procedure; it stays as it is.`),
    ],
  };
}

/** Only cells that say otherwise than before are written; a model gets a row when something was typed for it. */
export function tableEdits(facts: ProcedureFacts, library: LibraryFacts, at: number, typed: readonly TypedCell[]): Insertion {
  const table = tablesOf(facts).find(({ span }) => span.start === at);
  const form = table && tableForm(facts, library, at);
  if (!table || !form || 'ok' in form) return { ok: false, reason: 'The table is not there any more. Open it again.' };
  const edits: TextEdit[] = [];
  const fresh: string[] = [];
  form.rows.forEach((row, rowAt) => {
    const cells = form.columns.map((column, columnAt) => {
      const before = row.cells[columnAt] ?? '';
      const text = (typed.find((one) => one.row === rowAt && one.column === columnAt)?.text ?? before).trim();
      const written = column.end === 'both' ? text : limitCell(text, column.end, library);
      return { column, text, changed: text !== before, written: written.replace(/\\?\|/g, '\\|') };
    });
    if (row.index === undefined) {
      if (cells.some(({ text }) => text !== '')) fresh.push(newRow(row.head, table, cells));
      return;
    }
    edits.push(
      ...rowEdits(
        facts,
        table.rows[row.index] as Table['rows'][number],
        cells.filter(({ changed }) => changed),
      ),
    );
  });
  if (fresh.length > 0) edits.push(rowsAfter(facts, table, fresh));
  const [main] = edits;
  if (!main) return { ok: false, reason: 'Nothing is changed yet.' };
  const title = `Limits of ${form.measurements.join(', ')}`;
  return insertionOf(title, edits, main, 0, library, notesOf(form, typed, library));
}

// ---------------------------------------------------------------- what the table is

const tablesOf = ({ tree }: ProcedureFacts): readonly Table[] => [
  ...eachBlock([...tree.preface, ...tree.sections.flatMap(({ blocks }) => blocks)], 'table'),
];

function tableAt(facts: ProcedureFacts, library: LibraryFacts, offset: number): Table | undefined {
  const { text } = facts.source;
  const tables = tablesOf(facts);
  const own = tables.find(({ span }) => lineStart(text, span.start) <= offset && offset <= span.end);
  if (own) return own;
  // The line that names a table stands below it.
  const line = text.slice(lineStart(text, offset), offset) + (/^[^\r\n]*/.exec(text.slice(offset))?.[0] ?? '');
  const id = /^[>\s]*\{#([^}\s]+)\}\s*$/.exec(line)?.[1];
  const step = id === undefined ? stepAt(facts, offset)?.step : undefined;
  const said = step ? text.slice(step.span.start, step.span.end) : '';
  const named =
    id ??
    measurementAt(facts, offset)?.table ??
    measuredOf(facts, library.registers).find(
      ({ measurement, table }) => table !== undefined && said.toLowerCase().includes(`[${measurement.name.toLowerCase()}]`),
    )?.measurement.table;
  return tables.find((table) => named !== undefined && table.id === named);
}

interface Reading {
  readonly measurements: readonly string[];
  readonly columns: readonly { readonly index: number; readonly end: LimitsColumn['end'] }[];
  /** Names of the procedure's models. */
  readonly models: readonly string[];
  modelOf(head: string): string | undefined;
  /** Whether the head of a row names machines of this procedure. */
  knows(head: string): boolean;
}

function readingOf(facts: ProcedureFacts, library: LibraryFacts, table: Table): Reading {
  const models = limitModels(facts.head, library.registers);
  const mark = decimalMarkOf(library.registers.house.language);
  const by = facts.head.measurements.filter((one) => table.id !== undefined && one.table === table.id);
  const columns = by.flatMap(({ name }) => tableLimits(name, table, models, mark).columns);
  const named = (head: string) => namedRange(head, models);
  return {
    measurements: by.map(({ name }) => name),
    columns: columns
      .filter(({ index }, at) => columns.findIndex((other) => other.index === index) === at)
      .sort((a, b) => a.index - b.index),
    models: models.map(({ name }) => name),
    modelOf: (head) => named(head)?.model.name,
    knows: (head) => named(head) !== undefined,
  };
}

// ---------------------------------------------------------------- cells

/** The place of what is written in a cell, without its strokes and the room around it. */
function innerOf(text: string, { span }: Cell): { readonly start: number; readonly end: number } {
  const raw = text.slice(span.start, span.end);
  const empty = /^\s*\|? ?(?=\s*\|?\s*$)/.exec(raw);
  if (empty) return { start: span.start + empty[0].length, end: span.start + empty[0].length };
  const lead = /^\s*\|?[ \t]*/.exec(raw)?.[0].length ?? 0;
  const tail = /[ \t]*(?<!\\)\|?\s*$/.exec(raw)?.[0].length ?? 0;
  const start = span.start + Math.min(lead, raw.length);
  return { start, end: Math.max(start, span.end - tail) };
}

function rawCell({ source: { text } }: ProcedureFacts, cell: Cell | undefined): string {
  if (!cell) return '';
  const { start, end } = innerOf(text, cell);
  return text.slice(start, end).replace(/\\\|/g, '|');
}

const shownCell = (raw: string, end: LimitsColumn['end'], library: LibraryFacts): string =>
  end === 'both' ? raw : bareCell(raw, end, library);

interface Written {
  readonly column: LimitsColumn;
  readonly written: string;
}

/** Columns that stand in line go on standing so where there is room. A row that ends early is filled up to what is written. */
function rowEdits(facts: ProcedureFacts, row: Table['rows'][number], changed: readonly Written[]): readonly TextEdit[] {
  const { file, source } = facts;
  const edits: TextEdit[] = [];
  const missing: Written[] = [];
  for (const one of changed) {
    const cell = row.cells[one.column.index];
    if (!cell) {
      missing.push(one);
      continue;
    }
    const { start, end } = innerOf(source.text, cell);
    const room = /^ */.exec(source.text.slice(end, cell.span.end))?.[0].length ?? 0;
    const grown = Math.max(0, one.written.length - (end - start));
    const spare = Math.min(grown, Math.max(0, room - 1));
    const lead = start === end && source.text[start - 1] === '|' ? ' ' : '';
    const tail = source.text[end + spare] === '|' ? ' ' : '';
    edits.push({ file, start, end: end + spare, text: lead + one.written.padEnd(end - start) + tail });
  }
  if (missing.length === 0) return edits;
  const last = Math.max(...missing.map(({ column }) => column.index));
  const cells = Array.from({ length: last + 1 - row.cells.length }, (_, index) => {
    const own = missing.find(({ column }) => column.index === row.cells.length + index);
    return ` ${own?.written ?? ''} |`;
  });
  const closed = source.text.slice(row.span.start, row.span.end).trimEnd().endsWith('|');
  const at = row.span.start + source.text.slice(row.span.start, row.span.end).trimEnd().length;
  return [...edits, { file, start: at, end: at, text: `${closed ? '' : ' |'}${cells.join('')}` }];
}

function newRow(head: string, table: Table, cells: readonly Written[]): string {
  const written = table.head.map((_, index) => (index === 0 ? head : (cells.find(({ column }) => column.index === index)?.written ?? '')));
  return `| ${written.join(' | ')} |`;
}

/** Each under the last, behind whatever that stands behind. */
function rowsAfter({ file, source: { text } }: ProcedureFacts, table: Table, rows: readonly string[]): TextEdit {
  const last = table.rows.at(-1);
  const end = last?.span.end ?? table.span.end;
  const first = lineStart(text, last?.span.start ?? table.span.end);
  const before = /^[ \t>]*/.exec(text.slice(first))?.[0] ?? '';
  return { file, start: end, end, text: rows.map((row) => `\n${before}${row}`).join('') };
}
