/** What the library covers, as tables: symptoms, procedures and tools against models, limits with their numbers. Every cell leads to a text. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import { limitCells } from './limit-cells.ts';

export interface CoverageCell {
  readonly text: string;
  readonly file?: string;
  readonly span?: Span;
  /** Something should stand here and does not. */
  readonly missing?: boolean;
}

/** One table of a family of machines: a library holds several, and nobody asks for a press among the fans. */
export interface CoverageTable {
  readonly id: 'symptoms' | 'procedures' | 'tools' | 'limits';
  readonly family: string;
  readonly columns: readonly string[];
  readonly rows: readonly CoverageRow[];
}

export interface CoverageRow {
  readonly name: string;
  readonly cells: readonly CoverageCell[];
}

const EMPTY: CoverageCell = { text: '' };

/** By kind, then by family in the order of the register; a table without rows is left out. */
export function coverageOf(library: LibraryFacts): readonly CoverageTable[] {
  const families = [...new Set(library.registers.models.map(({ family }) => family))].map((family): Family => {
    const models = library.registers.models.filter((model) => model.family === family).map(({ name }) => name);
    return { name: family, models, procedures: library.procedures.filter((facts) => models.some((model) => covers(facts, model))) };
  });
  const kinds = { symptoms, procedures, tools, limits } as const;
  return (Object.keys(kinds) as (keyof typeof kinds)[]).flatMap((id) =>
    families.flatMap((family): CoverageTable[] => {
      const { columns, rows } = kinds[id](library, family);
      return rows.length === 0 ? [] : [{ id, family: family.name, columns, rows }];
    }),
  );
}

interface Family {
  readonly name: string;
  readonly models: readonly string[];
  readonly procedures: readonly ProcedureFacts[];
}
type Table = Pick<CoverageTable, 'columns' | 'rows'>;

const covers = (facts: ProcedureFacts, model: string): boolean => facts.machines.some(({ variant }) => variant.model === model);
const at = (facts: ProcedureFacts, text: string): CoverageCell => ({ text, file: facts.file, span: facts.head.titleSpan });

/** A symptom with no procedure for any model is missing; for some models only, the others stay empty, since not every machine has it. */
function symptoms(library: LibraryFacts, { name: family, models }: Family): Table {
  const rows = library.registers.symptoms.flatMap((symptom): CoverageRow[] => {
    const own = symptom.procedures.flatMap(({ number }) => library.procedures.find(({ head }) => head.id === number) ?? []);
    const here =
      symptom.family === undefined ? own.some((facts) => models.some((model) => covers(facts, model))) : symptom.family === family;
    // What leads nowhere and belongs to no family is missing in each: somebody has to see it.
    if (!here && (symptom.family !== undefined || own.length > 0)) return [];
    const cells = models.map((model): CoverageCell => {
      const found = own.filter((facts) => covers(facts, model));
      const [first] = found;
      return first ? at(first, found.map(({ head }) => head.id).join(', ')) : { text: '', missing: own.length === 0 };
    });
    return [{ name: symptom.name, cells }];
  });
  return { columns: models, rows };
}

function procedures(_: LibraryFacts, { models, procedures: own }: Family): Table {
  const rows = own.map((facts) => ({
    name: `${facts.head.id} ${facts.head.title}`,
    cells: models.map((model) => {
      const verdicts = facts.flow.verdicts.filter(({ variant }) =>
        facts.machines.some((one) => one.variant.name === variant && one.variant.model === model),
      );
      if (verdicts.length === 0) return EMPTY;
      const worst = (['refuted', 'not proved', 'proved'] as const).find((one) => verdicts.some(({ verdict }) => verdict === one));
      return at(facts, worst ?? '');
    }),
  }));
  return { columns: models, rows };
}

function tools(_: LibraryFacts, { procedures: own }: Family): Table {
  const columns = own.map(({ head }) => head.id);
  const names = [...new Set(own.flatMap(({ head }) => head.tools.map(({ name }) => name)))]
    .filter((name) => name !== 'none')
    .sort((a, b) => (a < b ? -1 : 1));
  const rows = names.map((name) => ({
    name,
    cells: own.map((facts) => {
      const entry = facts.head.tools.find((one) => one.name === name);
      return entry ? { text: '•', file: facts.file, span: entry.span } : EMPTY;
    }),
  }));
  return { columns, rows };
}

function limits(library: LibraryFacts, { models, procedures: own }: Family): Table {
  const rows = own.flatMap((facts) => {
    const found = limitCells(facts, library);
    return facts.head.measurements.map((measurement) => ({
      name: `${facts.head.id} ${measurement.name}`,
      cells: models.map((model): CoverageCell => {
        const cell = found.find((one) => one.measurement === measurement.name && one.model === model);
        if (!cell) return EMPTY;
        const place = { file: facts.file, span: measurement.span };
        return cell.text === undefined ? { text: '', missing: true, ...place } : { text: cell.text, ...place };
      }),
    }));
  });
  return { columns: models, rows };
}
