/**
 * Makes the instructions of a procedure from its readings: sequence, substeps, branches in bullets and in sentences, jumps,
 * repeats, calls of sections and procedures, ends. Called sections and repeated ranges are copied where they are called, so that
 * the graph needs no stack.
 * Long because one pass makes the graph; repeats and calls share its open jumps.
 */
import { foldText, type Prose, proseSpan, type Section } from '../format/index.ts';
import type { LabelledStep } from '../numbering/index.ts';
import { type Action, type Condition, KNOWN_SOURCE, type Reading, type Sentence, type Target } from '../reading/index.ts';
import { type ActFacts, type EndKind, type Instruction, type Program, placeOf } from './code.ts';
import { inverseOf } from './inverse.ts';
import type { FlowPlace, ReadChild, ReadProcedure, ReadStep } from './model.ts';

const DEEPEST = 12;
/** Instructions one procedure may grow to with all that it calls. Past this, or past DEEPEST, the program says that it was cut. */
const LONGEST = 60_000;

/** The instructions as they are made; one for a procedure and all that it calls. */
interface Sheet {
  readonly code: Raw[];
  /** Something was too long or too deep to be copied in: whatever is found holds, and nothing is proved. */
  cut: boolean;
}

type Hole = (target: number) => void;
/** An instruction before its jumps are known. */
type Raw = { -readonly [K in keyof Instruction]: Instruction[K] } & { next?: number; yes?: number; no?: number };

export interface CompileInput {
  readonly procedure: ReadProcedure;
  readonly others: (number: string) => ReadProcedure | undefined;
}

export function compile(input: CompileInput): Program {
  const sheet: Sheet = { code: [], cut: false };
  const end = new Unit(input.procedure, input.others, sheet, [], undefined).whole();
  const { code, cut } = sheet;
  return { code: code as unknown as Instruction[], entry: end.entry, steps: input.procedure.labels.steps, visit: false, cut };
}

/** Several procedures one after the other, as a visit walks them. Between two of them the technician may stop. */
export function compileVisit(procedures: readonly ReadProcedure[], others: CompileInput['others']): Program {
  const sheet: Sheet = { code: [], cut: false };
  const { code } = sheet;
  const [first] = procedures;
  if (first)
    code.push({
      op: 'enter',
      place: { file: first.file, span: first.head.idSpan },
      number: first.head.id,
      startsWith: first.head.startsWith,
      next: 1,
    } as unknown as Raw);
  procedures.forEach((read, index) => {
    const ends: { hole: Hole; place: FlowPlace }[] = [];
    new Unit(read, others, sheet, [], (place) => {
      const raw: Raw = { op: 'jump', place } as Raw;
      code.push(raw);
      ends.push({ hole: (target) => (raw.next = target), place });
    }).whole();
    const next = procedures[index + 1];
    // Each end asks for itself, so that a finding stands where the walk ended.
    const after = code.length + ends.length;
    ends.forEach(({ hole, place }, at) => {
      hole(code.length);
      code.push({ op: 'between', place, number: next?.head.id, startsWith: next?.head.startsWith ?? '', next: after } as unknown as Raw);
      if (at === ends.length - 1 && next === undefined) code.push({ op: 'jump', place, next: after } as unknown as Raw);
    });
  });
  const steps = procedures.flatMap((read) => read.labels.steps);
  return { code: code as unknown as Instruction[], entry: 0, steps, visit: true, cut: sheet.cut };
}

/** Where jumps to steps and sections lead, in one copy of the code. */
interface Scope {
  readonly steps: Map<LabelledStep, number>;
  readonly sections: Map<string, number>;
  readonly waiting: { readonly step?: LabelledStep; readonly section?: string; readonly hole: Hole }[];
  readonly outer: Scope | undefined;
}

/** One procedure being compiled, as the whole or as a callee. */
/** What is judged also by its words: which return test it is, whether it lasts (effects/). */
const WORDED: ReadonlySet<string> = new Set(['prove', 'observe', 'measure', 'sense', 'test-run']);

/** What a hand is at when it is named as a place. A cover is not: things are seen through it and stood before it. */
const REACHED: ReadonlySet<string> = new Set(['part', 'fastener', 'zone']);

class Unit {
  private readonly tests = new Map<ReadStep, { readonly standClear: boolean; readonly test: boolean }>();
  private readonly tops = new Map<Section, readonly ReadStep[]>();
  private readonly places = new Map<ReadStep, number>();
  private readonly runs = new Map<Section, readonly number[]>();
  private readonly read: ReadProcedure;
  private readonly others: CompileInput['others'];
  private readonly sheet: Sheet;
  private readonly code: Raw[];
  private readonly callers: readonly string[];
  private readonly onEnd: ((place: FlowPlace) => void) | undefined;
  private readonly byStep = new Map<LabelledStep, ReadStep>();
  private scope: Scope = newScope(undefined);
  /** Jumps that wait for the next instruction. */
  private open: Hole[] = [];
  private lastMeasured: string | undefined;
  private depth = 0;
  /** Sections from which a section is being called: to call one of them again is to go in circles. */
  private calling: readonly Section[] = [];

  constructor(
    read: ReadProcedure,
    others: CompileInput['others'],
    sheet: Sheet,
    callers: readonly string[],
    onEnd: ((place: FlowPlace) => void) | undefined,
  ) {
    this.read = read;
    this.others = others;
    this.sheet = sheet;
    this.code = sheet.code;
    this.callers = callers;
    this.onEnd = onEnd;
    for (const step of read.steps) index(step, this.byStep);
  }

  whole(): { entry: number; ends: Hole[] } {
    const entry = this.code.length;
    const called = this.calledSections();
    for (const section of this.read.sections) {
      if (section.prose || section.aside) continue;
      const steps = this.topSteps(section);
      if (steps.length === 0) continue;
      if (called.has(section.id) && this.open.length > 0)
        this.emit({
          op: 'violation',
          place: placeOf(this.read.file, steps[0]?.at, section.titleSpan),
          rule: 'falls-into-aside',
          thing: section.title,
          missing: [],
        });
      this.section(section, steps);
    }
    const last = this.read.steps.at(-1)?.at;
    const endSpan = last ? last.step.span : { start: 0, end: 0 };
    this.end('normal', placeOf(this.read.file, this.lastNormalStep() ?? last, endSpan));
    // Asides that are jumped to come after the end; falling off one goes on with the next section in order.
    for (let again = true; again; ) {
      again = false;
      for (const section of this.read.sections) {
        if (!section.aside || this.scope.sections.has(section.id)) continue;
        const wanted = this.scope.waiting.some((jump) => jump.section === section.id || (jump.step && jump.step.section.id === section.id));
        if (!wanted) continue;
        again = true;
        this.section(section, this.topSteps(section));
        const follows = this.sectionAfter(section);
        if (follows) this.jumpTo(placeOf(this.read.file, undefined, section.titleSpan), { section: follows.id });
        else this.end('normal', placeOf(this.read.file, this.topSteps(section).at(-1)?.at, section.titleSpan));
      }
    }
    this.settle();
    return { entry, ends: [] };
  }

  private lastNormalStep(): LabelledStep | undefined {
    const normal = this.read.steps.filter((step) => !step.at.section.aside);
    return normal.at(-1)?.at;
  }

  private sectionAfter(section: Section): Section | undefined {
    const at = this.read.sections.indexOf(section);
    return this.read.sections.slice(at + 1).find((later) => !later.prose && !later.aside && this.topSteps(later).length > 0);
  }

  private topSteps(section: Section): readonly ReadStep[] {
    const known = this.tops.get(section);
    if (known) return known;
    const made = this.read.steps.filter((step) => step.at.section === section);
    this.tops.set(section, made);
    return made;
  }

  /** Which top step of its section holds a step; -1: none. */
  private topOf(step: ReadStep): number {
    if (this.places.size === 0)
      for (const section of this.read.sections)
        for (const [index, top] of this.topSteps(section).entries()) for (const one of [top, ...belowOf(top)]) this.places.set(one, index);
    return this.places.get(step) ?? -1;
  }

  /** Top steps of a section that a test run stands in or under. */
  private testRuns(section: Section): readonly number[] {
    const known = this.runs.get(section);
    if (known) return known;
    const made = this.topSteps(section).flatMap((one, index) => (actionsOf(one).some(({ kind }) => kind === 'test-run') ? [index] : []));
    this.runs.set(section, made);
    return made;
  }

  /** Sections of this file that are called ("as in"), which must be asides. */
  private calledSections(): Set<string> {
    const out = new Set<string>();
    for (const step of this.byStep.values())
      for (const action of actionsOf(step))
        if (action.kind === 'call' && action.target?.kind === 'section' && action.target.document === undefined) {
          const section = this.sectionOf(action.target, step.at);
          if (section) out.add(section.id);
        }
    return out;
  }

  private sectionOf(target: Target, from: LabelledStep): Section | undefined {
    const resolved = this.read.resolve(target, from);
    return resolved.kind === 'section' && resolved.document === undefined ? resolved.section : undefined;
  }

  private section(section: Section, steps: readonly ReadStep[]): void {
    const at = this.here();
    if (!this.scope.sections.has(section.id)) this.scope.sections.set(section.id, at);
    for (const step of steps) this.step(step);
  }

  private step(step: ReadStep): void {
    if (this.tooMuch(this.code.length > LONGEST)) return;
    const at = this.here();
    if (!this.scope.steps.has(step.at)) this.scope.steps.set(step.at, at);
    this.emit({ op: 'step', place: placeOf(this.read.file, step.at, step.at.step.lead.span), at: step.at });
    this.reading(step.lead, step.at.step.lead, step);
    this.children(step.children, step);
  }

  private children(children: readonly ReadChild[], step: ReadStep): void {
    for (const child of children) {
      if (child.kind === 'substeps') for (const sub of child.steps) this.step(sub);
      else if (child.kind === 'objects')
        for (const [index, reading] of child.items.entries()) this.reading(reading, child.proses?.[index], step);
      else if (child.kind === 'prose') this.reading(child.reading, child.child.kind === 'paragraph' ? child.child.prose : undefined, step);
      else this.branches(child, step);
    }
  }

  /** Bullets with conditions: the first that holds is taken, exactly one. */
  private branches(child: Extract<ReadChild, { kind: 'branches' }>, step: ReadStep): void {
    const out: Hole[] = [];
    let otherwise = false;
    let subject: string | undefined;
    for (const { branch, condition, lead, children } of child.branches) {
      const conditions = branch.otherwise ? [] : conditionsOf(condition);
      otherwise ||= branch.otherwise;
      const skips: Hole[] = [];
      for (const one of conditions) {
        const decided = this.withSubject(one);
        if (decided.kind === 'outcome') subject = decided.subject;
        skips.push(this.branch(decided, placeOf(this.read.file, step.at, branch.span), branch.condition.text));
      }
      this.reading(lead, branch.lead, step);
      this.children(children, step);
      out.push(...this.take());
      this.open.push(...skips);
    }
    const every = child.branches.every(({ condition }) => condition.when?.every(({ kind }) => kind === 'variant'));
    // Branches by model alone: one of them has to hold on each (F6). Its subject is none.
    if (every) subject = '';
    if (!otherwise && subject !== undefined)
      this.emit({ op: 'open', place: placeOf(this.read.file, step.at, child.branches[0]?.branch.span ?? step.at.step.lead.span), subject });
    this.open.push(...out);
  }

  private withSubject(condition: Condition): Condition {
    if (condition.kind !== 'outcome' || condition.subject !== undefined || this.lastMeasured === undefined) return condition;
    return { ...condition, subject: this.lastMeasured };
  }

  /** Sentences in order; a row of "If" sentences is like bullets, but none true falls through. */
  private reading(reading: Reading, prose: Prose | undefined, step: ReadStep): void {
    let row: Hole[] = [];
    for (const sentence of reading.sentences) {
      const shared = sharedConditions(sentence);
      if (shared.length === 0) {
        this.open.push(...row);
        row = [];
        this.sentence(sentence, prose, step);
        continue;
      }
      const skips: Hole[] = [];
      for (const one of shared) {
        const decided = this.withSubject(one);
        skips.push(this.branch(decided, placeOf(this.read.file, step.at, spanOf(prose, sentence, step)), decided.text));
      }
      this.sentence(sentence, prose, step, shared.length);
      row.push(...this.take());
      this.open.push(...skips);
    }
    this.open.push(...row);
  }

  private sentence(sentence: Sentence, prose: Prose | undefined, step: ReadStep, sharedCount = 0): void {
    if (sentence.status !== 'read') return;
    // "Renew the seal as in [Renew the seal]": the called section does what the words only name.
    const called = sentence.actions.filter((action) => action.kind === 'call');
    for (const action of sentence.actions) {
      if (action.kind !== 'call' && called.some((call) => call.at === action.at)) continue;
      const own = action.when.slice(sharedCount);
      const span = prose ? proseSpan(prose, action.at, action.end) : step.at.step.lead.span;
      const place = placeOf(this.read.file, step.at, span, action);
      const skips = own.map((condition) => this.branch(this.withSubject(condition), place, condition.text));
      this.action(action, place, step, sentence);
      this.open.push(...skips);
    }
  }

  private action(action: Action, place: FlowPlace, step: ReadStep, sentence: Sentence): void {
    switch (action.kind) {
      case 'go-to':
        return this.goTo(action, place, step);
      case 'repeat':
        return this.repeat(action, place, step);
      case 'reverse':
        return this.reverse(action, place, step, sentence);
      case 'call':
        this.call(action, place, step);
        // What the called steps left is the state in which this step ends.
        if (this.open.length > 0) this.emit({ op: 'jump', place });
        return;
      case 'continue-with':
        return this.end('hand-over', place);
      case 'stop-and-call':
        return this.end('stop and call', place);
      case 'end':
        return this.end('normal', place);
      case 'refer':
        return;
      case 'use': {
        // A tool put to a part takes a hand there; a tool only named does nothing.
        const facts = this.factsOf(step, sentence, action);
        if (facts.nearby.length > 0 || action.manner === KNOWN_SOURCE) this.emit({ op: 'act', place, action, facts });
        return;
      }
      default:
        if (action.kind === 'measure')
          this.lastMeasured = action.things.find((use) => use.thing.kind === 'measurement')?.thing.name ?? this.lastMeasured;
        if (action.kind === 'sense')
          this.lastMeasured = action.things.find((use) => use.thing.kind === 'measurement')?.thing.name ?? this.lastMeasured;
        this.emit({ op: 'act', place, action, facts: this.factsOf(step, sentence, action) });
    }
  }

  private factsOf(step: ReadStep, sentence: Sentence, action: Action): ActFacts {
    const { standClear, test } = this.testFrom(step);
    const own = new Set(action.things.map((use) => use.thing.name));
    const nearby = sentence.mentions.flatMap(({ thing, at, end }) =>
      at >= action.at && end <= action.end && REACHED.has(thing.kind) && !own.has(thing.name) ? [thing] : [],
    );
    const words = WORDED.has(action.kind) ? sentence.text : '';
    return { words, heading: step.at.section.title, standClear, testAhead: test, nearby };
  }

  /** Whether a test run comes in this section from a step on, and whether a notice on the way says to stand clear. */
  private testFrom(step: ReadStep): { readonly standClear: boolean; readonly test: boolean } {
    const known = this.tests.get(step);
    if (known) return known;
    const section = this.topSteps(step.at.section);
    const from = Math.max(0, this.topOf(step));
    const at = this.testRuns(step.at.section).find((index) => index >= from) ?? -1;
    const between = at < 0 ? [] : section.slice(from, at + 1);
    const standClear = [step, ...between].some((one) => one.notices.some((notice) => notice.standClear));
    const made = { standClear, test: at >= 0 };
    this.tests.set(step, made);
    return made;
  }

  private goTo(action: Action, place: FlowPlace, step: ReadStep): void {
    const target = action.target;
    if (!target) return;
    const resolved = this.read.resolve(target, step.at);
    if (resolved.kind === 'step') return this.jumpTo(place, { step: resolved.step });
    if (resolved.kind === 'range') return this.jumpTo(place, { step: resolved.from });
    if (resolved.kind === 'section' && resolved.document === undefined) return this.jumpTo(place, { section: resolved.section.id });
    if (resolved.kind === 'section' || resolved.kind === 'document') return this.end('hand-over', place);
  }

  private jumpTo(place: FlowPlace, to: { step?: LabelledStep; section?: string }): void {
    const at = this.emit({ op: 'jump', place });
    this.take();
    const raw = this.code[at] as Raw;
    this.scope.waiting.push({ ...to, hole: (target) => (raw.next = target) });
  }

  /** Repeat A to B until c: a copy of A to B, then c is tested; while it does not hold the copy is walked again. */
  private repeat(action: Action, place: FlowPlace, step: ReadStep): void {
    if (!action.target) return;
    const resolved = this.read.resolve(action.target, step.at);
    const from = resolved.kind === 'range' ? resolved.from : resolved.kind === 'step' ? resolved.step : undefined;
    // "Repeat from step 4": from there to the step before this one.
    const before = action.manner === 'from' ? this.stepBefore(step) : undefined;
    const to = resolved.kind === 'range' ? resolved.to : from && before && before.order >= from.order ? before : from;
    const steps =
      from && to
        ? this.rangeOf(from, to)
        : resolved.kind === 'section' && resolved.document === undefined
          ? this.topSteps(resolved.section)
          : [];
    if (steps.length === 0) return;
    const until = action.until && this.withSubject(action.until);
    if (until?.kind === 'outcome' && until.subject !== undefined) {
      const held = steps.some(
        (one) =>
          actionsOf(one).some((other) => measures(other, until.subject as string)) || this.callsMeasure(one, until.subject as string),
      );
      if (!held) this.emit({ op: 'violation', place, rule: 'repeat-unmeasured', thing: until.subject, missing: [until.subject] });
    }
    // What is repeated goes by what is read, and nothing says when it is enough.
    if (!action.until && saysNoMore(step, action) && steps.some(goesByOutcome))
      this.emit({ op: 'violation', place, rule: 'repeat-unmeasured', thing: '', missing: [] });
    if (this.depth >= DEEPEST || steps.some((one) => one === step || contains(one, step))) {
      // A range that holds its own repeat is a jump back; the condition leaves it.
      const skip = until ? this.branchOut(until, place) : undefined;
      if (from) this.jumpTo(place, { step: from });
      if (skip) this.open.push(skip);
      return;
    }
    this.depth += 1;
    // Whoever comes to the repeat with the value already right does not begin it.
    let ready: Hole | undefined;
    if (until?.kind === 'outcome' && until.subject !== undefined) {
      const at = this.emit({ op: 'branch', place, condition: until, note: until.text, ifKnown: true });
      const raw = this.code[at] as Raw;
      this.open = [(target) => (raw.no = target)];
      ready = (target) => (raw.yes = target);
    }
    const start = this.here();
    this.copy(steps);
    if (until) {
      const leave = this.branchOut(until, place);
      const back = this.emit({ op: 'jump', place });
      this.take();
      (this.code[back] as Raw).next = start;
      this.open.push(leave);
    }
    if (ready) this.open.push(ready);
    this.depth -= 1;
  }

  /** A branch whose yes is the way out; code goes on where it does not hold. */
  private branchOut(condition: Condition, place: FlowPlace): Hole {
    const at = this.emit({ op: 'branch', place, condition, note: condition.text });
    const raw = this.code[at] as Raw;
    this.open = [(target) => (raw.no = target)];
    return (target) => (raw.yes = target);
  }

  private stepBefore(step: ReadStep): LabelledStep | undefined {
    return this.topSteps(step.at.section)[this.topOf(step) - 1]?.at;
  }

  private callsMeasure(step: ReadStep, subject: string, depth = 0): boolean {
    if (depth > 4) return false;
    return actionsOf(step).some((action) => {
      if (action.kind !== 'call' || !action.target) return false;
      const section = this.sectionOf(action.target, step.at);
      if (!section) return true; // another procedure may measure it
      return this.topSteps(section).some(
        (one) => actionsOf(one).some((other) => measures(other, subject)) || this.callsMeasure(one, subject, depth + 1),
      );
    });
  }

  private rangeOf(from: LabelledStep, to: LabelledStep): readonly ReadStep[] {
    const [low, high] = from.order <= to.order ? [from, to] : [to, from];
    const all = [...this.byStep.values()].filter(({ at }) => at.order >= low.order && at.order <= high.order);
    // A parent brings its substeps along.
    const held = new Set(all);
    const covered = new Set<ReadStep>();
    for (const step of all) for (const below of belowOf(step)) if (held.has(below)) covered.add(below);
    const last = high.order;
    return all.filter((step) => !covered.has(step) && step.at.order <= last).sort((a, b) => a.at.order - b.at.order);
  }

  /** Steps compiled again with jump targets of their own; what they do not hold leads to the code around. */
  private copy(steps: readonly ReadStep[]): void {
    const outer = this.scope;
    this.scope = newScope(outer);
    for (const step of steps) this.step(step);
    const inner = this.scope;
    this.scope = outer;
    for (const jump of inner.waiting) {
      const own = jump.step ? inner.steps.get(jump.step) : undefined;
      if (own !== undefined) jump.hole(own);
      else outer.waiting.push(jump);
    }
  }

  private reverse(action: Action, place: FlowPlace, step: ReadStep, sentence: Sentence): void {
    const resolved = action.target ? this.read.resolve(action.target, step.at) : undefined;
    const steps =
      resolved?.kind === 'range'
        ? this.rangeOf(resolved.from, resolved.to)
        : resolved?.kind === 'step'
          ? [this.byStep.get(resolved.step)].filter((one) => one !== undefined)
          : resolved?.kind === 'section' && resolved.document === undefined
            ? this.topSteps(resolved.section)
            : [];
    if (steps.length === 0) {
      this.emit({ op: 'violation', place, rule: 'reverse-unsaid', thing: sentence.text, missing: [] });
      return;
    }
    const done = steps.flatMap((one) => [...belowOf(one), one].sort((a, b) => a.at.order - b.at.order).flatMap(ownActions));
    for (const one of [...done].reverse()) {
      const inverse = inverseOf(one);
      if (inverse === 'none') this.emit({ op: 'violation', place, rule: 'reverse-unsaid', thing: wordsOf(one), missing: [] });
      else if (inverse !== 'nothing')
        this.emit({ op: 'act', place: { ...place, action: inverse }, action: inverse, facts: this.factsOf(step, sentence, inverse) });
    }
  }

  private call(action: Action, place: FlowPlace, step: ReadStep): void {
    if (!action.target) return;
    const resolved = this.read.resolve(action.target, step.at);
    if (resolved.kind === 'section' && resolved.document === undefined) {
      const { section } = resolved;
      if (this.depth >= DEEPEST || section === step.at.section || this.calling.includes(section)) {
        this.emit({ op: 'violation', place, rule: 'recursion', thing: section.title, missing: [] });
        return;
      }
      this.depth += 1;
      const before = this.lastMeasured;
      const { calling } = this;
      this.calling = [...calling, step.at.section];
      this.copy(this.topSteps(section));
      this.calling = calling;
      this.lastMeasured = before ?? this.lastMeasured;
      this.depth -= 1;
      return;
    }
    if (resolved.kind === 'step' || resolved.kind === 'range') {
      if (this.tooMuch(this.depth >= DEEPEST)) return;
      this.depth += 1;
      const steps = resolved.kind === 'step' ? this.rangeOf(resolved.step, resolved.step) : this.rangeOf(resolved.from, resolved.to);
      if (!steps.some((one) => one === step || contains(one, step))) this.copy(steps);
      this.depth -= 1;
      return;
    }
    const number = resolved.kind === 'document' ? resolved.number : resolved.kind === 'section' ? resolved.document : undefined;
    if (number !== undefined) this.callProcedure(number, place);
  }

  private callProcedure(number: string, place: FlowPlace): void {
    const callers = [...this.callers, this.read.head.id];
    if (callers.includes(number)) {
      this.emit({ op: 'violation', place, rule: 'recursion', thing: number, missing: [] });
      return;
    }
    const other = this.others(number);
    if (!other || this.tooMuch(callers.length >= DEEPEST || this.code.length > LONGEST)) return;
    this.emit({ op: 'enter', place, number, startsWith: other.head.startsWith });
    const ends: Hole[] = [];
    const before = this.take();
    const unit = new Unit(other, this.others, this.sheet, callers, (at) => {
      const raw = this.code[this.push({ op: 'jump', place: at })] as Raw;
      ends.push((target) => (raw.next = target));
    });
    for (const hole of before) hole(this.code.length);
    unit.whole();
    this.open.push(...ends);
  }

  private tooMuch(is: boolean): boolean {
    this.sheet.cut ||= is;
    return is;
  }

  private end(end: EndKind, place: FlowPlace): void {
    if (this.onEnd && (end === 'normal' || end === 'hand-over')) {
      const at = this.code.length;
      const holes = this.take();
      this.onEnd(place);
      for (const hole of holes) hole(at);
      return;
    }
    this.emit({ op: 'end', place, end, endsWith: this.read.head.endsWith ?? '' });
    this.take();
  }

  private branch(condition: Condition, place: FlowPlace, note: string): Hole {
    const at = this.emit({ op: 'branch', place, condition, note });
    const raw = this.code[at] as Raw;
    this.open = [(target) => (raw.yes = target)];
    return (target) => (raw.no = target);
  }

  /** Appends an instruction; all open jumps lead to it, and it opens its own. */
  private emit(instruction: Omit<Raw, 'next'> | Record<string, unknown>): number {
    const at = this.push(instruction);
    for (const hole of this.take()) hole(at);
    const raw = this.code[at] as Raw;
    this.open = [(target) => (raw.next = target)];
    return at;
  }

  private push(instruction: Record<string, unknown>): number {
    this.code.push(instruction as unknown as Raw);
    return this.code.length - 1;
  }

  private take(): Hole[] {
    const holes = this.open;
    this.open = [];
    return holes;
  }

  private here(): number {
    return this.code.length;
  }

  private settle(): void {
    for (const { step, section, hole } of this.scope.waiting) {
      const target = step ? this.scope.steps.get(step) : this.scope.sections.get(section ?? '');
      if (target !== undefined) hole(target);
      else {
        // A dead target is told by its own check; here the walk just ends.
        const at = this.push({ op: 'end', place: placeOf(this.read.file, step, { start: 0, end: 0 }), end: 'stop and call', endsWith: '' });
        hole(at);
      }
    }
    this.scope.waiting.length = 0;
  }
}

function newScope(outer: Scope | undefined): Scope {
  return { steps: new Map(), sections: new Map(), waiting: [], outer };
}

function index(step: ReadStep, into: Map<LabelledStep, ReadStep>): void {
  into.set(step.at, step);
  for (const below of belowOf(step)) into.set(below.at, below);
}

/** All substeps below a step, those in branches too. */
function belowOf(step: ReadStep): readonly ReadStep[] {
  return step.children.length === 0 ? NONE : childSteps(step.children);
}
const NONE: readonly ReadStep[] = [];
function childSteps(children: readonly ReadChild[]): ReadStep[] {
  return children.flatMap((child) => {
    if (child.kind === 'substeps') return child.steps.flatMap((sub) => [sub, ...belowOf(sub)]);
    if (child.kind === 'branches') return child.branches.flatMap((branch) => childSteps(branch.children));
    return [];
  });
}
function contains(step: ReadStep, other: ReadStep): boolean {
  return belowOf(step).includes(other);
}

/** Actions of a step and all below it. */
export function actionsOf(step: ReadStep): readonly Action[] {
  const known = ACTIONS.get(step);
  if (known) return known;
  const made = [...ownActions(step), ...belowOf(step).flatMap(ownActions)];
  ACTIONS.set(step, made);
  return made;
}
/** Asked of every step of a section for each action in it. */
const ACTIONS = new WeakMap<ReadStep, readonly Action[]>();
function ownActions(step: ReadStep): Action[] {
  return [step.lead, ...readingsIn(step.children)].flatMap((reading) => reading.sentences.flatMap((sentence) => [...sentence.actions]));
}
function readingsIn(children: readonly ReadChild[]): Reading[] {
  return children.flatMap((child): Reading[] => {
    if (child.kind === 'objects') return [...child.items];
    if (child.kind === 'prose') return [child.reading];
    if (child.kind === 'branches') return child.branches.flatMap((branch) => [branch.lead, ...readingsIn(branch.children)]);
    return [];
  });
}

function measures(action: Action, subject: string): boolean {
  return (
    action.things.some((use) => foldText(use.thing.name) === foldText(subject)) &&
    ['measure', 'sense', 'observe', 'prove', 'test-run', 'handle'].includes(action.kind)
  );
}

/** Whether a step reads a measurement, or has branches by what was read. */
function goesByOutcome(step: ReadStep): boolean {
  const reads = actionsOf(step).some(
    ({ kind, things }) => (kind === 'measure' || kind === 'sense') && things.some(({ thing }) => thing.kind === 'measurement'),
  );
  const byOutcome = (child: ReadChild): boolean =>
    child.kind === 'branches' && child.branches.some(({ condition }) => condition.when?.some(({ kind }) => kind === 'outcome'));
  return reads || step.children.some(byOutcome);
}

/** "Repeat steps 4 to 7." and not a word of what for: neither "for the other wheel" nor "twice". */
function saysNoMore(step: ReadStep, repeat: Action): boolean {
  const own = step.at.step.lead.text.slice(repeat.at, repeat.end).toLowerCase();
  const ids = repeat.target ? Object.values(repeat.target).map((one) => String(one).toLowerCase()) : [];
  const words = own
    .split(/[^a-z0-9-]+/)
    .filter((word) => word !== '' && !ids.includes(word) && !/^(?:repeat|from|steps?|section|to|and|then|again|\d+)$/.test(word));
  return words.length === 0;
}

/** Conditions that all actions of a sentence share from the front: an "If" sentence. */
function sharedConditions(sentence: Sentence): readonly Condition[] {
  const [first, ...rest] = sentence.actions;
  if (!first) return [];
  const shared: Condition[] = [];
  for (const [index, condition] of first.when.entries()) {
    if (rest.some((action) => action.when[index]?.text !== condition.text)) break;
    shared.push(condition);
  }
  return shared;
}

/** What a branch's condition was read as; nothing read is a condition of its own that nobody can decide. */
function conditionsOf(reading: Reading): readonly Condition[] {
  return reading.when ?? [{ kind: 'unread', text: reading.sentences.map((sentence) => sentence.text).join(' ') }];
}

function spanOf(prose: Prose | undefined, sentence: Sentence, step: ReadStep) {
  return prose ? proseSpan(prose, sentence.at, sentence.end) : step.at.step.lead.span;
}

function wordsOf(action: Action): string {
  const things = action.things.map((use) => use.thing.name).join(', ');
  return things === '' ? action.kind : `${action.kind} ${things}`;
}
