/**
 * A visit: the procedures that the register lists for a symptom, walked in turn on one machine, stopping after any of them. What the
 * single procedures were already told is not told again. semantics.md 4.
 */
import type { Machine, Registers, Symptom } from '../registers/index.ts';
import { compileVisit } from './compile/compile.ts';
import { groupsOf } from './groups.ts';
import { merge } from './merge.ts';
import type { ReadProcedure, Violation } from './model.ts';
import { search } from './remember.ts';
import { outcomesOn, settingOf } from './setting.ts';

export interface VisitInput {
  readonly symptom: Symptom;
  readonly registers: Registers;
  readonly others: (number: string) => ReadProcedure | undefined;
  /** Machines a procedure is for. */
  readonly machinesOf: (read: ReadProcedure) => readonly Machine[];
  /** Violations of the procedures by themselves. */
  readonly known: readonly Violation[];
}

export interface VisitResult {
  readonly symptom: Symptom;
  /** Each order of procedures that some machine walks, with the machines. */
  readonly orders: readonly { readonly numbers: readonly string[]; readonly variants: readonly string[] }[];
  readonly violations: readonly Violation[];
  readonly explored: { readonly states: number; readonly transitions: number };
}

export function proveVisit(input: VisitInput): VisitResult {
  const { symptom, registers, others } = input;
  const known = new Set(input.known.map(keyOf));
  // A procedure that does not end as it says is told by itself; what a visit makes of its end is that slip again.
  const astray = new Set(input.known.filter(({ rule }) => rule === 'ends-with').map(({ at }) => at.file));
  const violations: Violation[] = [];
  const orders: { numbers: readonly string[]; variants: readonly string[] }[] = [];
  let states = 0;
  let transitions = 0;
  for (const { procedures, machines } of ordersOf(input)) {
    const all = machines.map((machine) => machine.variant.name);
    orders.push({ numbers: procedures.map((read) => read.head.id), variants: all });
    // One procedure alone was proved as it stands.
    if (procedures.length < 2 && procedures[0]?.head.startsWith !== 'opened and locked out') continue;
    if (procedures.some(({ file }) => astray.has(file))) continue;
    const program = compileVisit(procedures, others);
    const solved = [...groupsOf(machines, program, outcomesOn({ procedures, registers, others }, program)).values()].map((group) => ({
      group,
      result: search(program, (remembered) =>
        settingOf({ procedures, registers, others }, program, group[0] as Machine, 'closed', remembered),
      ),
    }));
    for (const { result } of solved) {
      states += result.states;
      transitions += result.transitions;
    }
    const found = merge(solved, all, { file: symptom.origin.file, span: symptom.origin.span });
    for (const one of found)
      if (!known.has(keyOf(one))) violations.push({ ...one, variants: one.variants.length === 0 ? all : one.variants });
  }
  return { symptom, orders, violations, explored: { states, transitions } };
}

/** What a procedure does wrong by itself shows again wherever it is walked. */
const keyOf = ({ rule, thing }: Violation): string => `${rule}\n${thing}`;

/** Machines by the procedures they are led through: an entry may be for some models or options only. */
function ordersOf({ symptom, others, machinesOf }: VisitInput) {
  const reads = symptom.procedures.flatMap((entry) => {
    const read = others(entry.number);
    return read === undefined ? [] : [{ entry, read, machines: machinesOf(read) }];
  });
  const variants = new Map<string, Machine>();
  for (const { machines } of reads) for (const machine of machines) variants.set(machine.variant.name, machine);
  const orders = new Map<string, { procedures: ReadProcedure[]; machines: Machine[] }>();
  for (const machine of variants.values()) {
    const { name, model, options } = machine.variant;
    const own = reads.filter(
      ({ entry, machines }) =>
        machines.some((one) => one.variant.name === name) &&
        (entry.models === undefined || entry.models.includes(model)) &&
        (entry.options === undefined || entry.options.some((option) => options.includes(option))),
    );
    if (own.length === 0) continue;
    const key = own.map(({ entry }) => entry.number).join(' ');
    const order = orders.get(key) ?? { procedures: own.map(({ read }) => read), machines: [] };
    order.machines.push(machine);
    orders.set(key, order);
  }
  return [...orders.values()];
}
