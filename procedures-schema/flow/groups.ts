/** Machines that walk alike: of equal structure, every variant condition has the same truth on them, every reading can come out the same ways. */
import type { Condition } from '../reading/index.ts';
import type { Machine } from '../registers/index.ts';
import type { Program } from './code.ts';
import { holdsFor } from './decide.ts';

const SHAPES = new WeakMap<Machine, string>();

/** By what makes them alike. `outcomes` tells two machines apart whose readings can come out differently (setting.ts). Rule 22 of the walk. */
export function groupsOf(
  machines: readonly Machine[],
  program: Program,
  outcomes: (machine: Machine) => string,
): ReadonlyMap<string, readonly Machine[]> {
  const conditions = new Map<string, Extract<Condition, { kind: 'variant' }>>();
  for (const instruction of program.code)
    if (instruction.op === 'branch' && instruction.condition.kind === 'variant')
      conditions.set(JSON.stringify(instruction.condition), instruction.condition);
  const groups = new Map<string, Machine[]>();
  for (const machine of machines) {
    const shape = SHAPES.get(machine) ?? JSON.stringify({ ...machine, variant: undefined });
    SHAPES.set(machine, shape);
    const key = `${shape}\n${[...conditions.values()].map((condition) => (holdsFor(condition, machine.variant) ? 1 : 0)).join('')}\n${outcomes(machine)}`;
    groups.set(key, [...(groups.get(key) ?? []), machine]);
  }
  return groups;
}
