/** The declared measurements of a procedure with their limits, worked out once for all checks that look at them. */
import type { Table } from '../format/index.ts';
import { type DecimalMark, decimalMarkOf, type Limits, limitModels, limitsOf } from '../quantities/index.ts';
import type { Measurement, Registers } from '../registers/index.ts';
import type { ProcedureFacts } from './check.ts';
import { eachBlock } from './visit.ts';

export interface Measured {
  readonly measurement: Measurement;
  readonly table?: Table;
  readonly limits: Limits;
}

export function markOf(registers: Registers): DecimalMark {
  return decimalMarkOf(registers.house.language);
}

export function measuredOf({ head, tree }: ProcedureFacts, registers: Registers): readonly Measured[] {
  const blocks = [...tree.preface, ...tree.sections.flatMap((section) => section.blocks)];
  const tables = [...eachBlock(blocks, 'table')];
  const models = limitModels(head, registers);
  return head.measurements.map((measurement) => {
    const table = measurement.table === undefined ? undefined : tables.find(({ id }) => id === measurement.table);
    return {
      measurement,
      ...(table ? { table } : {}),
      limits: limitsOf(measurement, table, models, markOf(registers)),
    };
  });
}

/** `names` as people read them in a message about limits. */
export function modelWords(names: readonly string[]): string {
  return names.length === 1 ? `model ${names[0]}` : `models ${names.join(', ')}`;
}
