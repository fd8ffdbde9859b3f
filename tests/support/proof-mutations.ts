/**
 * Slips for the proof's own mutation run, beside those of mutations.ts: controls left out or done too late, energy brought back too
 * early, things left in or untested, jumps led elsewhere, conditions narrowed. Every place is tried; whether a slip that no rule tells
 * is one at all is said by the naive checker (naive-library.ts), not here and not by the proof.
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
import type { Made, Operator, Skipped } from './mutations.ts';

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

const JUMPS = [
  ...[...HANDS, ...LIVE, ...ENDS, ...OWED],
  ...['step-reached', 'way-out', 'aside-entered', 'closes-what-is-open', 'outcome-measured', 'outcome-answered'],
];

interface Plain {
  readonly step: ReadStep;
  readonly actions: readonly Action[];
}

const MORE: Skipped = { skipped: 'the step does more than this' };
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

/** Sources that the step's points, controls and gauges have to do with, on any machine. */
function controlled(facts: ProcedureFacts, { actions }: Plain): readonly string[] {
  const names = actions.flatMap(({ things }) => things.map(({ thing }) => thing.name));
  const of = facts.machines.flatMap(({ sources }) => sources);
  return of
    .filter((source) => {
      const points = [...source.isolate, ...source.relieve, ...source.restrain].map(({ point }) => point);
      return [...points, ...source.tryOut, ...source.shownBy, source.name].some((name) => names.includes(name));
    })
    .map(({ name }) => name);
}

function* drops(
  facts: ProcedureFacts,
  registers: Registers,
  kinds: readonly ActionKind[],
  checks: readonly string[],
  counts: (plain: Plain) => boolean = () => true,
): Iterable<Made | Skipped> {
  for (const step of facts.read.steps) {
    const plain = { step, actions: step.lead.sentences.flatMap(({ actions }) => actions) };
    if (!plain.actions.some(({ kind }) => kinds.includes(kind)) || !counts(plain)) continue;
    if (!does(plain, kinds) || step.children.length > 0) yield MORE;
    else yield { text: without(facts, plain, registers), what: told(plain), checks, along: ['*'] };
  }
}

const inLine = (text: string, start: number, from: string | RegExp, to: string): string | undefined => {
  const end = text.indexOf('\n', start);
  const line = text.slice(start, end);
  const by = line.replace(from, to);
  return by === line ? undefined : text.slice(0, start) + by + text.slice(end);
};

export const PROOF_OPERATORS: Readonly<Record<string, Operator>> = {
  *'drop an isolation'(facts, registers) {
    yield* drops(facts, registers, ['isolate'], [...HANDS, ...OWED]);
  },
  *'drop a wait'(facts, registers) {
    yield* drops(facts, registers, ['wait'], [...HANDS, ...OWED]);
  },
  *'wait too short'(facts) {
    // Whole minutes become as many seconds: shorter than anything settles.
    for (const { action, span, prose } of eachAction(facts.read)) {
      if (action.kind !== 'wait' || action.amounts.length === 0) continue;
      const text = inLine(facts.source.text, span.start, /(\d+) min/, '$1 s');
      yield text === undefined ? { skipped: 'no whole minutes' } : { text, what: prose.text, checks: [...HANDS, ...OWED], along: ['*'] };
    }
  },
  *'do a control too late'(facts) {
    const steps = plainSteps(facts);
    for (const [index, control] of steps.entries()) {
      const kinds: readonly ActionKind[] = ['isolate', 'lock', 'tag', 'relieve', 'restrain', 'try-out', 'prove', 'wait'];
      if (!control.actions.some(({ kind }) => kinds.includes(kind))) continue;
      if (!does(control, kinds)) {
        yield MORE;
        continue;
      }
      const own = controlled(facts, control);
      const work = steps
        .slice(index + 1)
        .filter(({ step }) => step.at.section === control.step.at.section)
        .find((later) => [...reachedBy(facts, later)].some((source) => own.length === 0 || own.includes(source)));
      if (!work) {
        yield { skipped: 'no hand after it in its section' };
        continue;
      }
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
      const kinds: readonly ActionKind[] = ['restore', 'unlock', 'untag', 'release'];
      if (!back.actions.some(({ kind }) => kinds.includes(kind))) continue;
      if (!does(back, kinds)) {
        yield MORE;
        continue;
      }
      const own = controlled(facts, back);
      const work = steps
        .slice(0, index)
        .filter(({ step }) => step.at.section === back.step.at.section)
        .findLast((earlier) => [...reachedBy(facts, earlier)].some((source) => own.includes(source)));
      if (!work) {
        yield { skipped: 'no hand before it in its section' };
        continue;
      }
      yield {
        text: swapped(facts, back, work),
        what: `${told(work)} <-> ${told(back)}`,
        checks: [...HANDS, ...LIVE, ...OWED],
        along: ['*'],
      };
    }
  },
  *'drop a tightening'(facts, registers) {
    yield* drops(facts, registers, ['tighten'], ['fastener-tight', 'visit-holds', 'slack-said', 'hands-relieved']);
  },
  *'leave a temporary thing in'(facts, registers) {
    const temporary = new Set(registers.tools.filter((tool) => tool.temporary).map(({ name }) => name));
    const one = ({ actions }: Plain): boolean => actions.some(({ things }) => things.some(({ thing }) => temporary.has(thing.name)));
    yield* drops(facts, registers, ['take-out'], ['temporary-left', 'temporary-out', 'visit-holds'], one);
  },
  *'drop a return test'(facts) {
    const things = facts.machines.flatMap(({ parts, covers, fasteners }) => [...parts, ...covers, ...fasteners]);
    for (const test of new Set(things.flatMap(({ returnTest }) => returnTest ?? []))) {
      const word = test.replace(/ test$/, '');
      // What is sensed with the quantity of the test is the test too.
      const sensed = facts.read.measurements.filter(({ quantity }) => quantity.includes(word)).map(({ name }) => name);
      const naming = (lead: string): boolean => lead.toLowerCase().includes(word) || sensed.some((name) => lead.includes(name));
      const steps = facts.read.steps.filter(({ at }) => naming(at.step.lead.text));
      // Each place alone, and all of them: what one leaves out another may do.
      const ways = steps.length > 1 ? [...steps.map((step) => [step]), steps] : [steps];
      for (const way of ways) {
        if (way.length === 0) continue;
        let { text } = facts.source;
        for (const { at } of [...way].reverse())
          text = `${text.slice(0, at.step.lead.span.start)}Look at the machine from outside.${text.slice(at.step.span.end)}`;
        const what = way.map(({ at }) => `${at.fullLabel}: ${at.step.lead.text}`).join(' + ');
        yield { text, what, checks: ['return-test', 'visit-holds'], along: ['*'] };
      }
    }
  },
  *'aim a jump elsewhere'(facts) {
    const { text } = facts.source;
    const sections = facts.tree.sections.filter((section) => !section.prose && section.title !== '');
    for (const { action, span, step } of eachAction(facts.read)) {
      const { target } = action;
      if (action.kind !== 'go-to' || !target) continue;
      if (target.kind === 'step-id') {
        // One step further on in its section: the step meant is left out.
        const meant = facts.read.labels.byId.get(target.id);
        const beyond = facts.read.labels.steps.find(
          (one) => meant && one.section === meant.section && one.path.length === meant.path.length && one.order > meant.order,
        );
        const by = beyond && inLine(text, span.start, new RegExp(`\\[step #${target.id}\\]`), `step ${beyond.label}`);
        const what = `${step.fullLabel}: ${action.kind} ${target.id} -> ${beyond?.label}`;
        yield by === undefined ? { skipped: 'no step behind the one meant' } : { text: by, what, checks: JUMPS, along: ['*'] };
        continue;
      }
      if (target.kind !== 'section' || target.document !== undefined) {
        yield { skipped: 'leads to another procedure' };
        continue;
      }
      const end = text.indexOf('\n', span.start);
      const line = text.slice(span.start, end);
      const at = sections.findIndex(({ title }) => title === target.title);
      const other = sections[at + 1] ?? sections[at - 1];
      const by = line.replace(/\[section [^\]]*\]/, `[section ${other?.title}]`);
      if (at < 0 || !other || by === line || other === step.section) {
        yield { skipped: 'no other section to lead to' };
        continue;
      }
      yield {
        text: text.slice(0, span.start) + by + text.slice(end),
        what: `${step.fullLabel}: ${line} -> ${other.title}`,
        checks: JUMPS,
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
    const checks = [...HANDS, ...ENDS, ...OWED, 'outcome-answered', 'part-not-used', 'variants-known', 'branches-mixed'];
    for (const step of facts.read.steps)
      for (const child of step.children) {
        if (child.kind !== 'branches') continue;
        for (const { branch, condition } of child.branches) {
          const what = `${step.at.fullLabel}: ${branch.condition.text}`;
          // "Under or over" becomes "under": what to do over the limit is said nowhere.
          const half = inLine(text, branch.span.start, /under or over the limits?/, 'under the limit');
          if (half !== undefined) yield { text: half, what: `${what} -> under`, checks, along: ['*'] };
          if (!condition.when?.some(({ kind }) => kind === 'variant')) continue;
          if (child.branches.some(({ branch: other }) => other.otherwise)) {
            yield { skipped: 'the model goes the way of "otherwise", and what is set wrong then stands in no register' };
            continue;
          }
          const start = text.lastIndexOf('\n', branch.span.start) + 1;
          const end = text.indexOf('\n', branch.span.end - 1) + 1;
          yield { text: text.slice(0, start) + text.slice(end), what, checks, along: ['*'] };
        }
      }
    // "For fans with the speed drive" becomes one of the models that can have it.
    for (const { action, span, step } of eachAction(facts.read))
      for (const one of action.when) {
        const model = facts.machines.find(
          ({ variant }) => one.kind === 'variant' && variant.options.includes(one.options[0] ?? ''),
        )?.variant;
        if (one.kind !== 'variant' || one.options.length === 0 || !model) continue;
        const line = text.lastIndexOf('\n', span.start) + 1;
        const narrowed = inLine(text, line, /(?:[Ff]or|[Oo]n) [a-z]+ with/, `For the ${model.model} with`);
        yield narrowed === undefined
          ? { skipped: 'the words of the condition are others' }
          : { text: narrowed, what: `${step.fullLabel}: ${one.text} -> ${model.model}`, checks, along: ['*'] };
      }
  },
};
