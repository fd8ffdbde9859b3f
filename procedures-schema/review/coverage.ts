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

export interface CoverageTable {
  readonly id: 'symptoms' | 'procedures' | 'tools' | 'limits';
  readonly columns: readonly string[];
  readonly rows: readonly { readonly name: string; readonly cells: readonly CoverageCell[] }[];
}

const EMPTY: CoverageCell = { text: '' };

export function coverageOf(library: LibraryFacts): readonly CoverageTable[] {
  const models = library.registers.models.map(({ name }) => name);
  return [symptoms(library, models), procedures(library, models), tools(library), limits(library, models)];
}

const covers = (facts: ProcedureFacts, model: string): boolean => facts.machines.some(({ variant }) => variant.model === model);
const at = (facts: ProcedureFacts, text: string): CoverageCell => ({ text, file: facts.file, span: facts.head.titleSpan });

/** A symptom with no procedure for any model is missing; for some models only, the others stay empty, since not every machine has it. */
function symptoms(library: LibraryFacts, models: readonly string[]): CoverageTable {
  const rows = library.registers.symptoms.map((symptom) => {
    const own = symptom.procedures.flatMap(({ number }) => library.procedures.find(({ head }) => head.id === number) ?? []);
    const cells = models.map((model): CoverageCell => {
      const found = own.filter((facts) => covers(facts, model));
      const [first] = found;
      return first ? at(first, found.map(({ head }) => head.id).join(', ')) : { text: '', missing: own.length === 0 };
    });
    return { name: symptom.name, cells };
  });
  return { id: 'symptoms', columns: models, rows };
}

function procedures(library: LibraryFacts, models: readonly string[]): CoverageTable {
  const rows = library.procedures.map((facts) => ({
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
  return { id: 'procedures', columns: models, rows };
}

function tools(library: LibraryFacts): CoverageTable {
  const columns = library.procedures.map(({ head }) => head.id);
  const names = [...new Set(library.procedures.flatMap(({ head }) => head.tools.map(({ name }) => name)))]
    .filter((name) => name !== 'none')
    .sort((a, b) => (a < b ? -1 : 1));
  const rows = names.map((name) => ({
    name,
    cells: library.procedures.map((facts) => {
      const entry = facts.head.tools.find((one) => one.name === name);
      return entry ? { text: '•', file: facts.file, span: entry.span } : EMPTY;
    }),
  }));
  return { id: 'tools', columns, rows };
}

function limits(library: LibraryFacts, models: readonly string[]): CoverageTable {
  const rows = library.procedures.flatMap((facts) => {
    const found = limitCells(facts, library);
    return facts.head.measurements.map((measurement) => ({
      name: `${facts.head.id} ${measurement.name}`,
      cells: models.map((model): CoverageCell => {
        const own = found.find((one) => one.measurement === measurement.name && one.model === model);
        if (!own) return EMPTY;
        const place = { file: facts.file, span: measurement.span };
        return own.text === undefined ? { text: '', missing: true, ...place } : { text: own.text, ...place };
      }),
    }));
  });
  return { id: 'limits', columns: models, rows };
}
