/** Limits as a form, wherever they are written down: rows of models, columns of ends, and what is told of what was typed. */
import type { LibraryFacts } from '../checks/index.ts';
import { decimalMarkOf, parseQuantity } from '../quantities/index.ts';

export interface LimitsColumn {
  /** Place among the columns of the table; of the front matter among those of the form. */
  readonly index: number;
  readonly heading: string;
  readonly end: 'lower' | 'upper' | 'both';
}

export interface LimitsRow {
  /** Place among the rows of the table or the entries of the front matter; undefined: a model that has no row yet. */
  readonly index: number | undefined;
  readonly head: string;
  /** For each column of the form. */
  readonly cells: readonly string[];
}

export interface LimitsForm {
  /** Where the table, or what the front matter says, begins. */
  readonly at: number;
  readonly measurements: readonly string[];
  /** Where they stand: an empty cell of a table is a gap, an end that the front matter does not name is none. */
  readonly where: 'table' | 'front matter';
  readonly columns: readonly LimitsColumn[];
  readonly rows: readonly LimitsRow[];
  /** What stays as it is, as sentences. */
  readonly kept: readonly string[];
}

export interface TypedCell {
  /** Places among the rows and columns of the form. */
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

/** Models that lack a limit, and what is no value. `oneSided`: a row with one end is whole; an empty cell of a table is a gap. */
export function notesOf(
  { rows, columns }: LimitsForm,
  typed: readonly TypedCell[],
  library: LibraryFacts,
  oneSided = false,
): readonly string[] {
  const mark = decimalMarkOf(library.registers.house.language);
  const now = (row: number, column: number): string =>
    (typed.find((one) => one.row === row && one.column === column)?.text ?? rows[row]?.cells[column] ?? '').trim();
  const open = rows
    .filter((_, row) => {
      const empty = columns.filter((_own, column) => now(row, column) === '').length;
      return oneSided ? empty === columns.length : empty > 0;
    })
    .map(({ head }) => head);
  const odd = typed.flatMap(({ text }) => {
    const own = text.trim();
    // A formula is looked at by its check, which knows the machine that it is for.
    return own === '' || /^[-–—]$/.test(own) || /\b(of|to)\b|[*×%]/.test(own) || parseQuantity(own, mark) ? [] : [own];
  });
  return [
    ...(open.length > 0 ? [`Limits are missing for ${open.join(', ')}.`] : []),
    ...odd.map((text) => `"${text}" is not read as a value.`),
  ];
}
