/**
 * Slips for the proof's own mutation run, beside those of mutations.ts: controls left out or done too late, energy brought back too
 * early, things left in or untested, jumps led elsewhere, conditions narrowed. Whether a slip can matter at all is said from the
 * register and the order of the text (relevance.ts), not by the proof.
 * Long because the operators are one list, read as a whole.
 */
import {
  type Action,
  type ActionKind,
  applyEdits,
  eachAction,
  type ProcedureFacts,
  type ReadStep,
  type Registers,
  removeStep,
} from '../../procedures-schema/index.ts';
import type { Mutant } from './mutations.ts';
import { isSole, sourcesOf, threatening } from './relevance.ts';

type Made = Omit<Mutant, 'operator' | 'file'>;
type Operator = (facts: ProcedureFacts, registers: Registers) => Iterable<Made>;

const HANDS = [
  'hands-isolated',
  'hands-locked',
  'hands-relieved',
  'hands-proved',
  'proof-again',
  'proof-in-order',
  'proof-shows',
  'plug-kept',
];
/** What a procedure that ends locked out owes is asked at its end, by its callers and by the visit. */
const OWED = ['end-as-said', 'start-established', 'visit-holds'];
const LIVE = ['people-clear', 'tools-out', 'covers-before-live', 'controls-off', 'temporary-out', 'point-locked', 'told-before-live'];
const ENDS = ['cover-refitted', 'part-refitted', 'fastener-tight', 'temporary-left', 'lock-off', 'point-restored', 'return-test'];

interface Plain {
  readonly step: ReadStep;
  readonly actions: readonly Action[];
}

/** Steps of the outermost lists with nothing below them, in order. */
function plainSteps(facts: ProcedureFacts): readonly Plain[] {
  return facts.read.steps
    .filter(({ children }) => children.length === 0)
    .map((step) => ({ step, actions: step.lead.sentences.flatMap(({ actions }) => actions) }));
}
const does = ({ actions }: Plain, kinds: readonly ActionKind[]): boolean =>
  actions.length > 0 && actions.every(({ kind }) => kinds.includes(kind));
const leadOf = (facts: ProcedureFacts, { step }: Plain): string =>
  facts.source.text.slice(step.at.step.lead.span.start, step.at.step.lead.span.end);

function without(facts: ProcedureFacts, { step }: Plain, registers: Registers): string {
  return applyEdits(facts.source.text, removeStep(facts.tree, step.at.step, registers.house.numbering));
}
const told = ({ step }: Plain): string => `${step.at.fullLabel}: ${step.at.step.lead.text}`;

/** Two steps change their words; labels stay. */
function swapped(facts: ProcedureFacts, a: Plain, b: Plain): string {
  const [one, two] = a.step.at.order < b.step.at.order ? [a, b] : [b, a];
  const { text } = facts.source;
  const [first, second] = [one.step.at.step.lead.span, two.step.at.step.lead.span];
  return (
    text.slice(0, first.start) + leadOf(facts, two) + text.slice(first.end, second.start) + leadOf(facts, one) + text.slice(second.end)
  );
}

/** Sources that a hand at the step's things can be hurt by, on any machine. */
function reachedBy(facts: ProcedureFacts, { actions }: Plain): ReadonlySet<string> {
  const out = new Set<string>();
  for (const action of actions) {
    if (!action.contact) continue;
    for (const { thing } of action.things)
      for (const machine of facts.machines) {
        const part = machine.parts.find(({ name }) => name === thing.name);
        const fastener = machine.fasteners.find(({ name }) => name === thing.name);
        const cover = machine.covers.find(({ name }) => name === thing.name);
        const of = machine.parts.find(({ name }) => name === fastener?.of);
        const zone = part?.zone ?? fastener?.zone ?? of?.zone ?? (cover?.openLive ? undefined : cover?.zone);
        for (const name of machine.zones.find((one) => one.name === zone)?.endangeredBy ?? []) out.add(name);
      }
  }
  return out;
}

/** Sources that the step's points and gauges have to do with. */
function controlled(facts: ProcedureFacts, { actions }: Plain): readonly string[] {
  return actions.flatMap(({ things }) =>
    things.flatMap(({ thing }) => (['isolate', 'relieve', 'prove'] as const).flatMap((way) => sourcesOf(facts, thing, way))),
  );
}

function* drops(
  facts: ProcedureFacts,
  registers: Registers,
  kinds: readonly ActionKind[],
  counts: (plain: Plain) => boolean,
  checks: readonly string[],
): Iterable<Made> {
  for (const plain of plainSteps(facts))
    if (does(plain, kinds) && counts(plain)) yield { text: without(facts, plain, registers), what: told(plain), checks, along: ['*'] };
}

export const PROOF_OPERATORS: Readonly<Record<string, Operator>> = {
  *'drop an isolation'(facts, registers) {
    const reach = threatening(facts);
    yield* drops(facts, registers, ['isolate'], (plain) => controlled(facts, plain).some((source) => reach.has(source)), [
      ...HANDS,
      ...OWED,
    ]);
  },
  *'drop a wait'(facts, registers) {
    const settling = facts.machines.flatMap(({ sources }) =>
      sources.filter(({ settles }) => settles !== undefined).map(({ name }) => name),
    );
    const reach = threatening(facts);
    // A thermal source may be named by what cools.
    const named = (text: string): boolean =>
      [...settling].some((source) => reach.has(source) && text.includes(source)) || /\bto cool\b/.test(text);
    yield* drops(facts, registers, ['wait'], ({ step }) => settling.length > 0 && named(step.at.step.lead.text), [...HANDS, ...OWED]);
  },
  *'do a control too late'(facts) {
    const steps = plainSteps(facts);
    for (const [index, control] of steps.entries()) {
      if (!does(control, ['isolate', 'lock', 'relieve', 'restrain', 'try-out', 'prove'])) continue;
      const way = control.actions.some(({ kind }) => kind === 'try-out' || kind === 'prove') ? 'prove' : 'relieve';
      const lone = does(control, ['isolate', 'lock']) || isSole(facts, control.step.at, way);
      const own = controlled(facts, control);
      const work = steps
        .slice(index + 1)
        .filter(({ step }) => step.at.section === control.step.at.section)
        .find((later) => [...reachedBy(facts, later)].some((source) => own.includes(source)));
      if (!lone || !work) continue;
      yield {
        text: swapped(facts, control, work),
        what: `${told(control)} <-> ${told(work)}`,
        checks: [...HANDS, ...OWED, 'point-locked'],
        along: ['*'],
      };
    }
  },
  *'bring energy back too early'(facts) {
    const steps = plainSteps(facts);
    for (const [index, back] of steps.entries()) {
      if (!does(back, ['restore', 'unlock', 'untag', 'release'])) continue;
      const own = controlled(facts, back);
      const work = steps
        .slice(0, index)
        .filter(({ step }) => step.at.section === back.step.at.section)
        .findLast((earlier) => [...reachedBy(facts, earlier)].some((source) => own.includes(source)));
      if (!work) continue;
      yield {
        text: swapped(facts, back, work),
        what: `${told(work)} <-> ${told(back)}`,
        checks: [...HANDS, ...LIVE, ...OWED],
        along: ['*'],
      };
    }
  },
  *'drop a tightening'(facts, registers) {
    yield* drops(
      facts,
      registers,
      ['tighten'],
      ({ actions }) => actions.every(({ amounts, when, stage }) => amounts.length > 0 && when.length === 0 && stage !== 'first'),
      ['fastener-tight', 'visit-holds', 'slack-said'],
    );
  },
  *'leave a temporary thing in'(facts, registers) {
    const temporary = new Set(registers.tools.filter((tool) => tool.temporary).map(({ name }) => name));
    yield* drops(
      facts,
      registers,
      ['take-out'],
      ({ actions }) => actions.some(({ things }) => things.some(({ thing }) => temporary.has(thing.name))),
      ['temporary-left', 'temporary-out', 'visit-holds'],
    );
  },
  *'drop a return test'(facts) {
    const things = facts.machines.flatMap(({ parts, covers, fasteners }) => [...parts, ...covers, ...fasteners]);
    for (const test of new Set(things.flatMap(({ returnTest }) => returnTest ?? []))) {
      const word = test.replace(/ test$/, '');
      // What is sensed with the quantity of the test is the test too; all of it goes.
      const sensed = facts.read.measurements.filter(({ quantity }) => quantity.includes(word)).map(({ name }) => name);
      const steps = facts.read.steps.filter(
        ({ at }) => at.step.lead.text.toLowerCase().includes(word) || sensed.some((name) => at.step.lead.text.includes(name)),
      );
      if (steps.length === 0 || !steps.some(({ at }) => at.step.lead.text.toLowerCase().includes(test))) continue;
      let { text } = facts.source;
      for (const { at } of [...steps].reverse())
        text = `${text.slice(0, at.step.lead.span.start)}Look at the machine from outside.${text.slice(at.step.span.end)}`;
      const what = steps.map(({ at }) => `${at.fullLabel}: ${at.step.lead.text}`).join(' + ');
      yield { text, what, checks: ['return-test', 'visit-holds'], along: ['*'] };
    }
  },
  *'aim a jump elsewhere'(facts) {
    const { text } = facts.source;
    const sections = facts.tree.sections.filter((section) => !section.prose && section.title !== '');
    for (const { action, span, step } of eachAction(facts.read)) {
      const { target } = action;
      if (action.kind !== 'go-to' || target?.kind !== 'section' || target.document !== undefined) continue;
      const end = text.indexOf('\n', span.start);
      const line = text.slice(span.start, end);
      const at = sections.findIndex(({ title }) => title === target.title);
      const other = sections[at + 1] ?? sections[at - 1];
      const by = line.replace(/\[section [^\]]*\]/, `[section ${other?.title}]`);
      if (at < 0 || !other || by === line || other === step.section) continue;
      yield {
        text: text.slice(0, span.start) + by + text.slice(end),
        what: `${step.fullLabel}: ${line} -> ${other.title}`,
        checks: [
          ...HANDS,
          ...LIVE,
          ...ENDS,
          ...OWED,
          'step-reached',
          'way-out',
          'aside-entered',
          'closes-what-is-open',
          'outcome-measured',
        ],
        along: ['*'],
      };
    }
  },
  *'take out the way out of a loop'(facts) {
    const { text } = facts.source;
    for (const { action, span, step } of eachAction(facts.read)) {
      if (action.kind !== 'repeat' || action.until === undefined) continue;
      const end = text.indexOf('\n', span.start);
      const line = text.slice(span.start, end);
      const by = line.replace(/ until .*$/, '.');
      yield {
        text: text.slice(0, span.start) + by + text.slice(end),
        what: `${step.fullLabel}: ${line}`,
        checks: ['way-out', 'repeat-measures', 'outcome-answered', 'adjusted-again'],
        along: ['*'],
      };
    }
  },
  *'narrow a condition'(facts) {
    const { text } = facts.source;
    for (const step of facts.read.steps)
      for (const child of step.children) {
        // With an "otherwise" the model goes that way: what is then set wrong stands in no register, so no rule can know it.
        if (child.kind !== 'branches' || child.branches.some(({ branch }) => branch.otherwise)) continue;
        for (const { branch, condition } of child.branches) {
          if (!condition.when?.some(({ kind }) => kind === 'variant')) continue;
          const start = text.lastIndexOf('\n', branch.span.start) + 1;
          const end = text.indexOf('\n', branch.span.end - 1) + 1;
          yield {
            text: text.slice(0, start) + text.slice(end),
            what: `${step.at.fullLabel}: ${branch.condition.text}`,
            checks: [...HANDS, ...ENDS, ...OWED, 'outcome-answered', 'part-not-used', 'variants-known', 'branches-mixed'],
            along: ['*'],
          };
        }
      }
  },
};

export function proofMutantsOf(operator: string, procedures: readonly ProcedureFacts[], registers: Registers): Mutant[] {
  const make = PROOF_OPERATORS[operator] as Operator;
  return procedures.flatMap((facts) => [...make(facts, registers)].map((mutant) => ({ ...mutant, operator, file: facts.file })));
}
