/**
 * The fix for a hand inside a machine that is live: the steps that made it safe earlier on the same walk, put in again before the hand
 * goes in, and where the procedure had put the machine back, put back again behind it. Offered only where the proof of the text so
 * changed has lost the finding and gained no other.
 */
import type { Fix } from '../finding.ts';
import { type FlowInput, prove, type ReadStep, type Rule, type Violation } from '../flow/index.ts';
import { insertSteps, type LabelledStep, type NewSteps } from '../numbering/index.ts';
import type { Action, ActionKind } from '../reading/index.ts';
import type { Source } from '../registers/index.ts';
import type { LibraryFacts, ProcedureFacts } from './check.ts';

/** What makes a machine safe, by kind; and what puts it back. */
const SAFE: readonly ActionKind[] = [
  ...(['tell', 'shut-down', 'control', 'isolate', 'lock', 'tag', 'relieve', 'restrain'] as const),
  ...(['wait', 'clear-people', 'try-out', 'prove', 'observe', 'use'] as const),
];
const BACK: readonly ActionKind[] = ['take-tools', 'clear-people', 'unrelieve', 'unlock', 'untag', 'release', 'restore', 'tell'];
const PROVES: readonly ActionKind[] = ['clear-people', 'control', 'try-out', 'prove', 'observe', 'use'];
/** What has to be done besides proving, by the rule that is broken. */
const MISSING: Readonly<Partial<Record<Rule, readonly ActionKind[]>>> = {
  'H-isolated': ['isolate', 'lock', 'tag', 'relieve', 'restrain', 'wait', 'shut-down', 'tell'],
  'H-locked': ['lock', 'tag'],
  'H-relieved': ['relieve', 'restrain', 'wait'],
};
/** A step with one of these in it is of the kind; the rest of `SAFE` and `BACK` only come along. */
const MAKES_SAFE: readonly ActionKind[] = [
  'isolate',
  'lock',
  'relieve',
  'restrain',
  'wait',
  'try-out',
  'prove',
  'observe',
  'control',
  'shut-down',
];
const PUTS_BACK: readonly ActionKind[] = ['unrelieve', 'unlock', 'release', 'restore'];
const RULES: ReadonlySet<string> = new Set([
  'H-isolated',
  'H-locked',
  'H-relieved',
  'H-proved',
  'proof-early',
  'proof-used',
  'proof-empty',
]);
/** Each try is a proof of its own; past this many findings of one procedure the writer has other things to do first. */
const MOST = 2;
/** States of the procedure's own proof; past this each try would cost more than an edit may. */
const LARGE = 5_000;

export function reIsolation(facts: ProcedureFacts, library: LibraryFacts, violation: Violation): Fix | undefined {
  const hands = facts.flow.violations.filter(({ rule }) => RULES.has(rule));
  if (!RULES.has(violation.rule) || hands.indexOf(violation) >= MOST || facts.flow.explored.states > LARGE) return undefined;
  const top = topOf(facts, violation.at.step);
  if (!top || violation.at.file !== facts.file) return undefined;
  const source = facts.machines.flatMap(({ sources }) => sources).find(({ name }) => name === violation.thing);
  if (!source) return undefined;
  const { safe, back } = usedEarlier(facts, violation);
  if (safe.length === 0) return undefined;
  // What is missing of a machine that is safe but for its proof is the proof.
  const enough = [...PROVES, ...(MISSING[violation.rule] ?? [])];
  const own = safe.filter((step) => concerns(facts, step, source));
  const last = lastOfWork(facts, top);
  const tries: { readonly before: readonly ReadStep[]; readonly after: readonly ReadStep[] }[] = [
    { before: own.filter((step) => actionsOf(step).every(({ kind }) => enough.includes(kind))), after: [] },
    { before: own, after: [] },
    { before: safe, after: [] },
    { before: own, after: back.filter((step) => concerns(facts, step, source)) },
    { before: safe, after: back },
  ];
  for (const { before, after } of tries) {
    if (before.length === 0) continue;
    if (!proves(facts, library, violation, [...inserted(facts, top, 'before', before), ...inserted(facts, last, 'after', after)])) continue;
    const text = (step: ReadStep): string => facts.source.text.slice(step.at.step.lead.span.start, step.at.step.lead.span.end);
    const puts: NewSteps[] = [
      { beside: top.at.step, where: 'before', texts: before.map(text) },
      ...(after.length === 0 ? [] : [{ beside: last.at.step, where: 'after' as const, texts: after.map(text) }]),
    ];
    const named = (steps: readonly ReadStep[]): string => steps.map(({ at }) => at.fullLabel).join(', ');
    return {
      title: `Make it safe again before step ${top.at.fullLabel}, as in ${named(before)}${after.length === 0 ? '' : `, and put it back as in ${named(after)}`}`,
      edits: insertSteps(facts.tree, puts, library.registers.house.numbering),
    };
  }
  return undefined;
}

/** Plain steps of this file on the walk before the hand went in, each once, by what they do. */
function usedEarlier(
  facts: ProcedureFacts,
  violation: Violation,
): { readonly safe: readonly ReadStep[]; readonly back: readonly ReadStep[] } {
  const safe = new Set<ReadStep>();
  const back = new Set<ReadStep>();
  const at = violation.at.step;
  for (const { place } of violation.walk) {
    if (place.step === undefined || place.step === at || place.file !== facts.file) continue;
    const step = facts.read.steps.find((one) => one.at === place.step);
    if (!step || !plain(step)) continue;
    const kinds = actionsOf(step).map(({ kind }) => kind);
    const only = (list: readonly ActionKind[]): boolean => kinds.every((kind) => list.includes(kind));
    // Telling and clearing people are done for what comes next.
    if (only(SAFE) && (kinds.some((kind) => MAKES_SAFE.includes(kind)) || back.size === 0)) safe.add(step);
    else if (only(BACK) && (kinds.some((kind) => PUTS_BACK.includes(kind)) || safe.size > 0)) back.add(step);
  }
  return { safe: [...safe], back: [...back].some((step) => actionsOf(step).some(({ kind }) => PUTS_BACK.includes(kind))) ? [...back] : [] };
}

const actionsOf = (step: ReadStep): readonly Action[] => step.lead.sentences.flatMap(({ actions }) => actions);

/** Its words say the same wherever they stand. */
function plain(step: ReadStep): boolean {
  return (
    step.children.length === 0 &&
    step.lead.sentences.every(({ status }) => status === 'read' || status === 'remark') &&
    actionsOf(step).length > 0 &&
    actionsOf(step).every(({ target, when }) => target === undefined && when.every(({ kind }) => kind === 'variant'))
  );
}

/** The step has to do with the source, or with people. */
function concerns(facts: ProcedureFacts, step: ReadStep, source: Source): boolean {
  const points = [...source.isolate, ...source.relieve, ...source.restrain].map(({ point }) => point);
  const controls = facts.machines.flatMap((machine) => machine.controls);
  const selectors = controls.filter(({ maintained, starts }) => maintained && starts.includes(source.name)).map(({ name }) => name);
  const names = new Set([source.name, ...points, ...source.tryOut, ...source.shownBy, ...selectors]);
  const people: readonly ActionKind[] = ['tell', 'clear-people', 'take-tools', 'shut-down', 'wait'];
  return actionsOf(step).some(
    ({ kind, things, with: tools }) =>
      people.includes(kind) || things.some(({ thing }) => names.has(thing.name)) || (source.provedWith.length > 0 && tools.length > 0),
  );
}

/** The step of the outermost list that holds a step. */
function topOf(facts: ProcedureFacts, step: LabelledStep | undefined): ReadStep | undefined {
  let at = step;
  while (at?.parent) at = at.parent;
  return facts.read.steps.find((one) => one.at === at);
}

/** The last of the steps from here on that are done by hand, before the machine is put back, tested or left. */
function lastOfWork(facts: ProcedureFacts, top: ReadStep): ReadStep {
  const section = facts.read.steps.filter(({ at }) => at.section === top.at.section);
  let last = top;
  for (const step of section.slice(section.indexOf(top) + 1)) {
    const actions = actionsOf(step);
    if (step.children.length > 0 || !actions.some(({ contact }) => contact)) break;
    last = step;
  }
  return last;
}

/** Copies of steps beside one of them, as the proof takes them: with an order between that of its neighbours. */
interface Inserted {
  readonly beside: ReadStep;
  readonly where: 'before' | 'after';
  readonly steps: readonly ReadStep[];
}
function inserted(facts: ProcedureFacts, beside: ReadStep, where: Inserted['where'], steps: readonly ReadStep[]): readonly Inserted[] {
  if (steps.length === 0) return [];
  const all = facts.read.labels.steps;
  const end = all.findLast(({ order, section }) => section === beside.at.section && order < (nextTop(facts, beside)?.at.order ?? Infinity));
  const from = where === 'before' ? beside.at.order - 1 : (end?.order ?? beside.at.order);
  const copies = steps.map((step, index): ReadStep => {
    const { parent: _, ...at } = step.at;
    return { ...step, at: { ...at, section: beside.at.section, order: from + (index + 1) / (steps.length + 1) } };
  });
  return [{ beside, where, steps: copies }];
}
function nextTop(facts: ProcedureFacts, step: ReadStep): ReadStep | undefined {
  return facts.read.steps[facts.read.steps.indexOf(step) + 1];
}

/** Whether the proof of the procedure with the copies in it has lost the finding, and has no error that it had not before. */
function proves(facts: ProcedureFacts, library: LibraryFacts, violation: Violation, puts: readonly Inserted[]): boolean {
  const { read } = facts;
  const steps = read.steps.flatMap((step) => [
    ...puts.flatMap((put) => (put.beside === step && put.where === 'before' ? put.steps : [])),
    step,
    ...puts.flatMap((put) => (put.beside === step && put.where === 'after' ? put.steps : [])),
  ]);
  const added = puts.flatMap((put) => put.steps.map(({ at }) => at));
  const labelled = [...read.labels.steps, ...added].sort((a, b) => a.order - b.order);
  const input: FlowInput = {
    procedure: { ...read, steps, labels: { ...read.labels, steps: labelled } },
    machines: facts.machines,
    registers: library.registers,
    others: (number) => library.procedures.find(({ head }) => head.id === number)?.read,
  };
  const key = ({ rule, thing }: Violation): string => `${rule} ${thing}`;
  const errors = (list: readonly Violation[]): readonly Violation[] => list.filter(({ severity }) => severity === 'error');
  const before = errors(facts.flow.violations);
  const after = errors(prove(input).violations);
  const known = new Set(before.map(key));
  const there = (one: Violation): boolean => key(one) === key(violation) && one.at.step === violation.at.step;
  return !after.some(there) && after.length < before.length && after.every((one) => known.has(key(one)));
}
