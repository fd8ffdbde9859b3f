/** What the sample library makes use of: every kind of action, condition, block, reference, energy, and every rule's own question. */
import {
  type Action,
  type Block,
  eachAction,
  eachReading,
  eachSentence,
  type LibraryReport,
  type Machine,
  measuredOf,
  type ProcedureFacts,
  type ReadChild,
  type Registers,
  type StepChild,
} from '../../procedures-schema/index.ts';
import { ACTION_KINDS } from '../../procedures-schema/reading/action-kinds.ts';

export interface Use {
  readonly group: 'action' | 'condition' | 'block' | 'reference' | 'energy' | 'rule';
  readonly name: string;
  readonly count: number;
}

const BLOCKS = [
  'paragraph',
  'steps',
  'substeps',
  'branches',
  'objects',
  'bullets',
  'notice',
  'table',
  'figure',
  'aside section',
  'prose section',
];
const REFERENCES = ['step', 'steps', 'section', 'table', 'figure', 'second-value', 'name'];
const CONDITIONS = ['variant', 'fact', 'outcome', 'state'];
const ENERGIES = ['electrical', 'capacitor', 'pneumatic', 'hydraulic', 'gravity', 'spring', 'steam', 'mechanical', 'thermal'];

export function usesOf(report: LibraryReport): readonly Use[] {
  const { procedures, registers } = report.facts;
  const counts = new Map<string, number>();
  const add = (group: Use['group'], name: string): void => {
    counts.set(`${group} ${name}`, (counts.get(`${group} ${name}`) ?? 0) + 1);
  };
  for (const facts of procedures) {
    for (const { action } of eachAction(facts.read)) {
      add('action', action.kind);
      for (const condition of [...action.when, ...(action.until ? [action.until] : [])]) add('condition', condition.kind);
    }
    for (const { reading } of eachReading(facts.read)) for (const condition of reading.when ?? []) add('condition', condition.kind);
    for (const section of facts.tree.sections) {
      if (section.aside) add('block', 'aside section');
      if (section.prose) add('block', 'prose section');
      for (const block of section.blocks) countBlock(block, add);
    }
    for (const [rule, asked] of Object.entries(RULES)) for (let n = asked(facts, registers); n > 0; n -= 1) add('rule', rule);
  }
  for (const family of registers.families) for (const source of family.sources) add('energy', source.kind);
  const wanted: readonly (readonly [Use['group'], readonly string[]])[] = [
    ['action', ACTION_KINDS],
    ['condition', CONDITIONS],
    ['block', BLOCKS],
    ['reference', REFERENCES],
    ['energy', ENERGIES],
    ['rule', Object.keys(RULES)],
  ];
  return wanted.flatMap(([group, names]) => names.map((name) => ({ group, name, count: counts.get(`${group} ${name}`) ?? 0 })));
}

function countBlock(block: Block | StepChild, add: (group: Use['group'], name: string) => void): void {
  add('block', block.kind);
  const proses =
    block.kind === 'paragraph'
      ? [block.prose]
      : block.kind === 'table'
        ? [...block.head, ...block.rows.flatMap(({ cells }) => cells)].map((cell) => cell.prose)
        : block.kind === 'bullets' || block.kind === 'objects'
          ? block.items.map((item) => item.prose)
          : block.kind === 'branches'
            ? block.branches.flatMap((branch) => [branch.condition, branch.lead])
            : block.kind === 'steps' || block.kind === 'substeps'
              ? block.steps.map((step) => step.lead)
              : [];
  for (const prose of proses) for (const mark of prose.marks) if (mark.kind === 'reference') add('reference', mark.form.kind);
  if (block.kind === 'steps' || block.kind === 'substeps')
    for (const step of block.steps) for (const child of step.children) countBlock(child, add);
  if (block.kind === 'branches') for (const branch of block.branches) for (const child of branch.children) countBlock(child, add);
  if (block.kind === 'notice') for (const inner of block.blocks) countBlock(inner, add);
}

// ---------------------------------------------------------------- rules

const actions = (facts: ProcedureFacts): readonly Action[] => eachAction(facts.read).map(({ action }) => action);
const of =
  (...kinds: readonly Action['kind'][]) =>
  (facts: ProcedureFacts): number =>
    actions(facts).filter((action) => kinds.includes(action.kind)).length;
const machine = (facts: ProcedureFacts): Machine | undefined => facts.machines[0];
const sources = (facts: ProcedureFacts, wanted: (source: Machine['sources'][number]) => boolean): number =>
  machine(facts)?.sources.filter(wanted).length ?? 0;
const named = (facts: ProcedureFacts, names: readonly string[]): number =>
  actions(facts).filter((action) => action.things.some(({ thing }) => names.includes(thing.name))).length;
const branchesIn = (children: readonly ReadChild[]): number => children.filter((child) => child.kind === 'branches').length;

const limitsIn = (facts: ProcedureFacts, registers: Registers) =>
  measuredOf(facts, registers).flatMap(({ measurement, limits }) => limits.limits.map((limit) => ({ measurement, limit })));

/** How often a procedure gives each rule of semantics.md something to judge, and each form of limits. */
const RULES: Readonly<Record<string, (facts: ProcedureFacts, registers: Registers) => number>> = {
  'H: hands on in an endangered zone': (facts) => actions(facts).filter((action) => action.contact).length,
  'H: locks': of('lock'),
  'H: stored energy let out or held': of('relieve', 'restrain'),
  'H: proof by trying out': of('try-out'),
  'H: proof by gauge or meter': of('prove'),
  'H: energy that can come back': (facts) => sources(facts, (source) => source.canComeBack),
  'H: energy that goes by waiting': (facts) => sources(facts, (source) => source.settles !== undefined),
  'H: kept by the plug': (facts) => sources(facts, (source) => source.cordAndPlug),
  'H: a second lock by a role': (facts) => actions(facts).filter((action) => action.role !== undefined && action.kind === 'lock').length,
  'R: energy back': of('restore', 'release', 'unrelieve'),
  'R: people clear': of('clear-people'),
  'R: tools out': of('take-tools'),
  'R: told': of('tell'),
  'R: controls off': (facts) => machine(facts)?.controls.filter((control) => control.maintained).length ?? 0,
  'R: temporary things out': of('put-in'),
  'test run with a cover off': of('test-run'),
  'live task': (facts) => (facts.head.liveTask === undefined ? 0 : 1),
  'E: covers': (facts) => named(facts, machine(facts)?.covers.map(({ name }) => name) ?? []),
  'E: parts': (facts) => named(facts, machine(facts)?.parts.map(({ name }) => name) ?? []),
  'E: fasteners': of('loosen', 'tighten'),
  'E: return tests': (facts) =>
    named(
      facts,
      [...(machine(facts)?.parts ?? []), ...(machine(facts)?.covers ?? [])]
        .filter(({ returnTest }) => returnTest !== undefined)
        .map(({ name }) => name),
    ),
  'E: out of service': of('out-of-service'),
  'E: stop and call': of('stop-and-call'),
  calls: of('call'),
  'start handed over by another': (facts) => facts.head.requires.length + (facts.head.startsWith === 'opened and locked out' ? 1 : 0),
  'end handed on to another': (facts) => (facts.head.endsWith === 'opened and locked out' ? 1 : 0),
  'outcomes and their branches': (facts) => facts.read.steps.reduce((sum, step) => sum + branchesIn(step.children), 0),
  'limits: a formula in a table': (facts, registers) =>
    limitsIn(facts, registers).filter(({ measurement, limit }) => measurement.table !== undefined && limit.formula !== undefined).length,
  'limits: by serial number': (facts, registers) => limitsIn(facts, registers).filter(({ limit }) => limit.serial !== undefined).length,
  'repeat until': of('repeat'),
  'in reverse order': of('reverse'),
  'asides reached only by call or jump': (facts) => facts.tree.sections.filter((section) => section.aside).length,
  'variants that walk differently': (facts) => (facts.machines.length > 1 ? 1 : 0),
  'confirmations that establish nothing': (facts) =>
    eachSentence(facts.read).filter(({ sentence }) => sentence.status === 'confirmation').length,
};

/** The table as printed. */
export function useTable(uses: readonly Use[]): string {
  return uses.map(({ group, name, count }) => `${group.padEnd(10)} ${name.padEnd(42)} ${String(count).padStart(5)}`).join('\n');
}
