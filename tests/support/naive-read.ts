/**
 * A procedure as it was read, laid out flat for the naive checker: one small step a sentence, bullets and rows of "If" as jumps, so that
 * the walk over the text is not the proof's either. Targets are resolved; what a step does is left to naive-effects.ts.
 */
import type { Action, Condition, ReadChild, ReadProcedure, ReadStep, Resolved, Sentence, Thing } from '../../procedures-schema/index.ts';
import type { NaiveAct, NaiveBranch, NaiveProcedure, NaiveStep } from './naive-procedure.ts';

export function naiveOf(read: ReadProcedure): NaiveProcedure {
  const layer = new Layer(read);
  return {
    number: read.head.id,
    startsWith: read.head.startsWith,
    endsWith: read.head.endsWith ?? 'closed',
    live: read.head.liveTask !== undefined,
    sections: read.sections
      .filter(({ prose }) => !prose)
      .map((section) => ({
        title: section.id,
        aside: section.aside,
        steps: read.steps.filter(({ at }) => at.section === section).flatMap((step) => layer.step(step, false)),
      })),
  };
}

/** What has one inverse by its nature. */
const BACK: Readonly<Partial<Record<Action['kind'], Action['kind']>>> = { open: 'close', loosen: 'tighten', close: 'open' };
const NOWHERE: Action = { kind: 'refer', things: [], with: [], contact: false, outside: false, amounts: [], when: [], at: 0, end: 0 };

class Layer {
  private readonly read: ReadProcedure;
  private uid = 0;
  private made = 0;
  private measured: string | undefined;

  constructor(read: ReadProcedure) {
    this.read = read;
  }

  step(step: ReadStep, guarded: boolean): NaiveStep[] {
    const clear = guarded || step.notices.some(({ standClear }) => standClear);
    const own = this.sentences(step.lead.sentences, step, clear);
    const id = idOf(step.at.order);
    const all = [...own, ...this.children(step.children, step, clear)].map((small) => ({ of: id, ...small }));
    // Whoever jumps to the step comes to its first sentence.
    const empty = { standClear: clear, line: { kind: 'sentences' as const, acts: [] } };
    return [{ id, ...empty }, ...all, { id: `${id} end`, ...empty }];
  }

  private children(children: readonly ReadChild[], step: ReadStep, clear: boolean): NaiveStep[] {
    return children.flatMap((child): NaiveStep[] => {
      if (child.kind === 'substeps') return child.steps.flatMap((sub) => this.step(sub, clear));
      if (child.kind === 'objects') return child.items.flatMap(({ sentences }) => this.sentences(sentences, step, clear));
      if (child.kind === 'prose') return this.sentences(child.reading.sentences, step, clear);
      const ways = child.branches.map(({ branch, condition, lead, children: below }) => {
        const unread: Condition = { kind: 'unread', text: branch.condition.text };
        const when = branch.otherwise ? [] : (condition.when ?? [unread]).map((one) => this.withSubject(one));
        return { when, steps: [...this.sentences(lead.sentences, step, clear), ...this.children(below, step, clear)] };
      });
      return this.oneOf(ways, clear);
    });
  }

  /** Bullets: the first that holds is taken, each a stretch of its own behind them. */
  private oneOf(ways: readonly { when: readonly Condition[]; steps: readonly NaiveStep[] }[], clear: boolean): NaiveStep[] {
    const after = this.mark(clear);
    const blocks = ways.map(({ steps }) => ({ head: this.mark(clear), steps }));
    const branches = ways.map(({ when }, index): NaiveBranch => {
      const [first, ...and] = when;
      const act = this.jump((blocks[index] as { head: NaiveStep }).head.id);
      return { uid: this.next(), act, ...(first ? { when: first, and } : {}) };
    });
    const past = (): NaiveStep => this.line([this.jump(after.id)], clear);
    return [
      { id: this.name(), standClear: clear, line: { kind: 'bullets', branches } },
      past(),
      ...blocks.flatMap(({ head, steps }) => [head, ...steps, past()]),
      after,
    ];
  }

  /** Sentences in a row; "If" sentences next to each other are a row of which the first that holds is done. */
  private sentences(sentences: readonly Sentence[], step: ReadStep, clear: boolean): NaiveStep[] {
    const out: NaiveStep[] = [];
    for (let index = 0; index < sentences.length; index += 1) {
      const row: Sentence[] = [];
      while (sharedBy(sentences[index + row.length]).length > 0) row.push(sentences[index + row.length] as Sentence);
      if (row.length === 0) {
        out.push(...this.actions(sentences[index] as Sentence, 0, step, clear));
        continue;
      }
      const after = this.mark(clear);
      const ways = row.map((sentence) => {
        const when = sharedBy(sentence).map((one) => this.withSubject(one));
        return { when, head: this.mark(clear), steps: this.actions(sentence, when.length, step, clear) };
      });
      const past = (): NaiveStep => this.line([this.jump(after.id)], clear);
      out.push(
        this.line(
          ways.map(({ when, head }) => this.jump(head.id, when)),
          clear,
        ),
        past(),
      );
      out.push(...ways.flatMap(({ head, steps }) => [head, ...steps, past()]), after);
      index += row.length - 1;
    }
    return out;
  }

  private actions(sentence: Sentence, shared: number, step: ReadStep, clear: boolean): NaiveStep[] {
    if (sentence.status !== 'read') return [];
    const calls = sentence.actions.filter(({ kind }) => kind === 'call');
    // "Renew the seal as in [Renew the seal]": the section does it.
    const done = sentence.actions.filter((action) => action.kind === 'call' || !calls.some(({ at }) => at === action.at));
    return done.flatMap((action): NaiveStep[] => {
      if (action.kind === 'reverse') return this.reverse(action, sentence, step, clear);
      const own = action.when.slice(shared).map((one) => this.withSubject(one));
      const until = action.until && this.withSubject(action.until);
      const asked = action.when.some(({ kind }) => kind === 'state' || kind === 'fact' || kind === 'unread');
      const led = this.led({ ...action, when: own, ...(until ? { until } : {}) }, step);
      if (action.kind === 'measure' || action.kind === 'sense')
        this.measured = action.things.find(({ thing }) => thing.kind === 'measurement')?.thing.name ?? this.measured;
      return [this.line([this.act(led, sentence, step, asked)], clear)];
    });
  }

  /** What was taken off or loosened comes back, the last first. */
  private reverse(action: Action, sentence: Sentence, step: ReadStep, clear: boolean): NaiveStep[] {
    const to = action.target && this.read.resolve(action.target, step.at);
    const steps = this.read.steps.filter(({ at }) =>
      to?.kind === 'range' ? at.order >= to.from.order && at.order <= to.to.order : to?.kind === 'section' && at.section === to.section,
    );
    const acts = steps.flatMap(({ lead }) => lead.sentences.flatMap(({ actions }) => actions)).reverse();
    return acts.flatMap((one) => {
      const screws = one.things.length > 0 && one.things.every(({ thing }) => thing.kind === 'fastener');
      const kind = one.kind === 'open' && screws ? 'tighten' : BACK[one.kind];
      return kind ? [this.line([this.act({ ...one, kind }, sentence, step)], clear)] : [];
    });
  }

  private act(action: Action, { text, mentions }: Sentence, { at }: ReadStep, asked = false): NaiveAct {
    const quantities = action.things.flatMap(({ thing }) =>
      this.read.measurements.filter(({ name }) => thing.kind === 'measurement' && name === thing.name).map(({ quantity }) => quantity),
    );
    const names = action.things.map(({ thing }) => thing.name);
    const nearby = mentions
      .filter((use) => use.at >= action.at && use.end <= action.end && ['part', 'fastener', 'zone'].includes(use.thing.kind))
      .map(({ thing }): Thing => thing)
      .filter(({ name }) => !names.includes(name));
    // A test is named by the sentence, by the heading it stands under, or by what is measured.
    const words = [text, at.section.title, ...quantities.map((quantity) => `${quantity} test`)].join(' ').toLowerCase();
    return { uid: this.next(), action, words, nearby, asked };
  }

  /** Where the words lead, by ids of steps. */
  private led(action: Action, step: ReadStep): Action {
    const { target } = action;
    if (!target) return action;
    const to: Resolved = this.read.resolve(target, step.at);
    const { target: _, ...bare } = action;
    switch (to.kind) {
      case 'step': {
        if (action.kind !== 'repeat' && action.kind !== 'call') return { ...bare, target: { kind: 'step-id', id: idOf(to.step.order) } };
        const siblings = this.read.steps.filter(({ at }) => at.section === step.at.section);
        const before = siblings[siblings.findIndex((one) => belowAnd(one).includes(step)) - 1];
        const until = action.manner === 'from' && before ? before.at.order : to.step.order;
        return { ...bare, target: { kind: 'steps-id', from: idOf(to.step.order), to: `${idOf(until)} end` } };
      }
      case 'range':
        return { ...bare, target: { kind: 'steps-id', from: idOf(to.from.order), to: `${idOf(to.to.order)} end` } };
      case 'section': {
        if (to.document !== undefined) return { ...bare, target: { kind: 'document', number: to.document } };
        const own = this.read.steps.filter(({ at }) => at.section === to.section);
        const [first, last] = [own[0], own.at(-1)];
        if (action.kind === 'repeat' && first && last)
          return { ...bare, target: { kind: 'steps-id', from: idOf(first.at.order), to: `${idOf(last.at.order)} end` } };
        return { ...bare, target: { kind: 'section', title: to.section.id } };
      }
      case 'document':
        return { ...bare, target: { kind: 'document', number: to.number } };
      default:
        return bare;
    }
  }

  private withSubject(condition: Condition): Condition {
    if (condition.kind !== 'outcome' || condition.subject !== undefined || this.measured === undefined) return condition;
    return { ...condition, subject: this.measured };
  }

  private jump(id: string, when: readonly Condition[] = []): NaiveAct {
    return { uid: this.next(), action: { ...NOWHERE, kind: 'go-to', target: { kind: 'step-id', id }, when }, words: 'go to' };
  }
  private mark(clear: boolean): NaiveStep {
    return this.line([], clear);
  }
  private line(acts: readonly NaiveAct[], clear: boolean): NaiveStep {
    return { id: this.name(), standClear: clear, line: { kind: 'sentences', acts } };
  }
  private name(): string {
    this.made += 1;
    return `small ${this.made}`;
  }
  private next(): number {
    this.uid += 1;
    return this.uid;
  }
}

const idOf = (order: number): string => `step ${order}`;

function belowAnd(step: ReadStep): readonly ReadStep[] {
  const below = (children: readonly ReadChild[]): readonly ReadStep[] =>
    children.flatMap((child) => {
      if (child.kind === 'substeps') return child.steps.flatMap(belowAnd);
      return child.kind === 'branches' ? child.branches.flatMap((branch) => below(branch.children)) : [];
    });
  return [step, ...below(step.children)];
}

/** Conditions that all actions of a sentence share from the front. */
function sharedBy(sentence: Sentence | undefined): readonly Condition[] {
  const [first, ...rest] = sentence?.status === 'read' ? sentence.actions : [];
  const own = first?.when ?? [];
  const at = own.findIndex((one, index) => rest.some(({ when }) => when[index]?.text !== one.text));
  return at < 0 ? own : own.slice(0, at);
}
