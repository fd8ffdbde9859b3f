/** The sections of a procedure as lines to tick off: labels as in the guide, every notice, limits at the step where they are read. */
import type { Block, Branch, LabelledStep, Measurement, Notice, Section, Step, StepChild, Table } from '../../procedures-schema/index.ts';
import type { BookBlock, Flow, Inline, NoticeBlock, Task, TaskReading, TasksBlock } from '../book.ts';
import {
  type Applies,
  appliesIn,
  bandBeside,
  boxUnit,
  codeLines,
  earthsIn,
  inlineOf,
  labelled,
  limitsPrinted,
  measurementsAt,
  type Scope,
  sectionAnchor,
  stepAnchor,
  tableRows,
  valuesIn,
  wordsOf,
} from '../compose/index.ts';
import type { ShortWords } from '../printed-words/index.ts';
import { branchModels, initialsOf, type Judged, judgedBelow, modelsNamed, type StepFacts, stepFacts } from './facts.ts';
import { shortLine } from './line.ts';

type Item = TasksBlock['items'][number];

/** Sections without steps are told in the guide; their notices are told here as well. */
export function tasksOf(scope: Scope): readonly TasksBlock[] {
  const composer = new Composer(scope);
  return scope.facts.tree.sections.map((section) => composer.section(section)).filter((block) => block.items.length > 0);
}

class Composer {
  private readonly scope: Scope;
  private readonly applies: Applies;
  private readonly facts: StepFacts;
  private readonly measured: ReadonlyMap<Step, readonly Measurement[]>;
  private readonly words: ShortWords;
  private readonly earths: ReadonlySet<number>;

  constructor(scope: Scope) {
    this.scope = scope;
    this.applies = appliesIn(scope);
    this.facts = stepFacts(scope);
    this.measured = measurementsAt(scope);
    this.words = wordsOf(scope.input).short;
    this.earths = earthsIn(scope);
  }

  section(section: Section): TasksBlock {
    const items: Item[] = [];
    const withSteps = section.blocks.some((block) => block.kind === 'steps');
    let guards: NoticeBlock[] = [];
    for (const block of section.blocks) {
      if (block.kind === 'notice') guards.push(this.notice(block));
      else if (block.kind === 'steps') {
        const tasks = block.steps.filter(this.applies.step).flatMap((step, index) => this.step(step, 0, index === 0 ? guards : []));
        if (tasks.length > 0) guards = [];
        items.push(...tasks);
      } else if (withSteps) items.push(...this.extra(block, 0, `${section.title} ${items.length}`));
    }
    return {
      kind: 'tasks',
      heading: section.title,
      anchor: sectionAnchor(this.scope.facts.head.id, section),
      ...(section.aside ? { aside: this.words.aside } : {}),
      // Notices with no step left after them stand at the end rather than nowhere.
      items: [...items, ...guards],
    };
  }

  private notice(notice: Notice): NoticeBlock {
    const { words, input } = this.scope;
    const use = notice.attributes?.entries.find((entry) => entry.key === 'use')?.value;
    const standing = input.library.registers.notices.find((one) => one.name === use)?.text;
    const own = notice.blocks.flatMap((block) => this.said(block));
    const body: Flow = own.length > 0 || standing === undefined ? own : [{ kind: 'paragraph', inline: [{ kind: 'text', text: standing }] }];
    return { kind: 'notice', word: notice.word, panel: words.panel[notice.word], compact: true, body };
  }

  /** The writer's words, whole: a notice is short in form, not in what it says. */
  private said(block: Block): BookBlock[] {
    if (block.kind === 'paragraph') return [{ kind: 'paragraph', inline: inlineOf(block.prose, this.scope).map(plainLink) }];
    if (block.kind !== 'bullets') return [];
    const items = block.items.map(
      (item): Flow => [
        { kind: 'paragraph', inline: inlineOf(item.prose, this.scope).map(plainLink) },
        ...item.blocks.flatMap((one) => this.said(one)),
      ],
    );
    return [{ kind: 'bullets', items }];
  }

  private step(step: Step, depth: number, guards: readonly NoticeBlock[]): Task[] {
    const { facts } = this.scope;
    const at = labelled(step, this.scope);
    const lead = this.facts.lead.get(step);
    const models = modelsNamed(lead);
    const measured = this.measured.get(step) ?? [];
    const judged = judgedBelow(
      step.children.flatMap((child) => (child.kind === 'branches' ? child.branches : [])),
      measured,
      this.facts,
    );
    const below = this.below(step.children, at, depth, judged?.says);
    const initials = initialsOf(lead);
    const own: Task = {
      kind: 'task',
      label: at.label,
      anchor: stepAnchor(facts.head.id, at.order),
      depth,
      line: [...models.flatMap(chip), ...shortLine(step.lead, lead, this.scope, at)],
      notices: [...guards, ...below.notices],
      ...(at.path.length === 1 ? { band: bandBeside(at, facts) } : {}),
      ...(this.earths.has(at.order) ? { earths: true as const } : {}),
      readings: measured.filter((one) => one !== judged?.measurement).map((one) => this.reading(one)),
      ...(initials === undefined ? {} : { initials }),
      field: this.field(at),
    };
    return [own, ...below.tasks];
  }

  private field(at: LabelledStep, rest = ''): string {
    const section = at.section.title;
    return `${this.scope.facts.head.id}, ${section}, ${at.fullLabel}${rest === '' ? '' : `, ${rest}`}`;
  }

  private below(
    children: readonly StepChild[],
    at: LabelledStep,
    depth: number,
    says?: ReadonlyMap<Branch, Judged>,
  ): { readonly tasks: Task[]; readonly notices: NoticeBlock[] } {
    const tasks: Task[] = [];
    let pending: NoticeBlock[] = [];
    children.forEach((child, place) => {
      if (child.kind === 'notice') pending.push(this.notice(child));
      else if (child.kind === 'substeps') {
        tasks.push(...child.steps.filter(this.applies.step).flatMap((one, index) => this.step(one, depth + 1, index === 0 ? pending : [])));
        pending = [];
      } else if (child.kind === 'branches')
        tasks.push(
          ...child.branches
            .filter(this.applies.branch)
            .flatMap((branch, index) => this.branch(branch, at, depth + 1, index, says?.get(branch))),
        );
      else if (child.kind === 'objects')
        child.items.forEach((item, index) => {
          tasks.push(this.plain(shortLine(item.prose, undefined, this.scope, at), depth + 1, this.field(at, `item ${place}.${index + 1}`)));
        });
      else
        tasks.push(...this.extra(child, depth + 1, this.field(at, `note ${place}`), at).filter((one): one is Task => one.kind === 'task'));
    });
    return { tasks, notices: pending };
  }

  /** `judged`: by what it is seen that the condition is true. */
  private branch(branch: Branch, at: LabelledStep, depth: number, index: number, judged: Judged | undefined): Task[] {
    const read = this.facts.branches.get(branch);
    const { models, whole } = branchModels(read?.condition);
    const lead = shortLine(branch.lead, read?.lead, this.scope, at);
    const { text } = this.scope.facts.tree.source;
    const opening = (end: number): string =>
      text
        .slice(branch.span.start, end)
        .replace(/^\s*[-*+]\s+/, '')
        .replace(/[[\]*]/g, '')
        .replace(/\s+/g, ' ');
    const said = branch.otherwise
      ? opening(branch.lead.span.start).replace(/[\s,:]+$/, '')
      : opening(branch.condition.span.start) + branch.condition.text;
    const condition: Inline[] = whole
      ? []
      : [
          { kind: 'strong', text: judged === undefined ? `${said}:` : said },
          { kind: 'text', text: judged === undefined ? ' ' : ` (${valuesIn(judged.seen, this.scope.input)}): ` },
        ];
    const below = this.below(branch.children, at, depth);
    // What the condition names itself needs no chip: a model that is said twice is read as two.
    const chips = models.filter((model) => whole || !said.includes(model)).flatMap(chip);
    const line = [...chips, ...condition, ...(whole ? capital(lead) : lead)];
    const { passes, fails } = this.scope.words;
    const answer = judged === undefined ? `branch ${index + 1}` : `${judged.name}, ${judged.outcome === 'pass' ? passes : fails}`;
    return [{ ...this.plain(line, depth, this.field(at, answer)), notices: below.notices }, ...below.tasks];
  }

  private readonly plain = (line: readonly Inline[], depth: number, field: string): Task => ({
    kind: 'task',
    label: '',
    depth,
    line,
    notices: [],
    readings: [],
    field,
  });

  /** What a writer put beside the steps: said in a line of its own, for it may bind. Pictures are in the guide, limits at their step. */
  private extra(
    block: Block | Exclude<StepChild, { kind: 'substeps' | 'branches' | 'objects' }>,
    depth: number,
    field: string,
    at?: LabelledStep,
  ): Item[] {
    const from = at ?? (this.scope.facts.read.labels.steps[0] as LabelledStep | undefined);
    switch (block.kind) {
      case 'paragraph':
        if (from === undefined || block.prose.text.trim() === '') return [];
        return [this.paragraph(block, from, depth, field)];
      case 'code':
        return codeLines(block.value).map((line, index) => this.plain([{ kind: 'code', text: line }], depth, `${field}, ${index + 1}`));
      case 'bullets':
        return block.items.flatMap((item, index) => [
          ...(from === undefined ? [] : [this.plain(shortLine(item.prose, undefined, this.scope, from), depth, `${field}, ${index + 1}`)]),
          ...item.blocks.flatMap((one, at2) => this.extra(one, depth + 1, `${field}, ${index + 1}.${at2 + 1}`, at)),
        ]);
      case 'table':
        return this.isLimits(block) ? [] : [this.table(block)];
      default:
        return [];
    }
  }

  /** A paragraph in which something is done is ticked like a step; one that only tells stands under its step. */
  private paragraph(block: Extract<Block, { kind: 'paragraph' }>, from: LabelledStep, depth: number, field: string): Task {
    const reading = this.facts.prose.get(block);
    const line = shortLine(block.prose, reading, this.scope, from);
    const told = reading?.sentences.every(({ actions, status }) => actions.length === 0 && status !== 'unread') ?? false;
    return told ? { ...this.plain(line, Math.max(0, depth - 1), field), remark: true } : this.plain(line, depth, field);
  }

  private isLimits(table: Table): boolean {
    return this.scope.facts.head.measurements.some((one) => one.table !== undefined && one.table === table.id);
  }

  private table(table: Table): Extract<Item, { kind: 'table' }> {
    const { words } = this.scope;
    return {
      kind: 'table',
      head: table.head.map((cell) => inlineOf(cell.prose, this.scope)),
      rows: tableRows(table, this.scope),
      align: table.head.map((cell) => cell.align ?? 'left'),
      caption: `${words.table} ${this.scope.tableNumbers.get(table) ?? ''}`,
    };
  }

  private reading(measurement: Measurement): TaskReading {
    const { words } = this.scope;
    const { name } = measurement;
    if (measurement.sensed !== undefined) {
      const { pass, fail } = measurement.sensed;
      return {
        name,
        limits: [],
        boxes: [],
        unit: '',
        verdict: {
          passes: words.passes,
          pass: valuesIn(pass, this.scope.input),
          fails: words.fails,
          fail: valuesIn(fail, this.scope.input),
        },
      };
    }
    const limits = limitsPrinted(measurement, this.scope);
    const label = words.limits;
    const shown = limits.map(({ name: model, text }, index) => ({
      ...(model === undefined ? {} : { model }),
      text: index === 0 && model === undefined ? `${label}: ${text}` : text,
    }));
    const { before, after, reading, notLimited } = this.words;
    return {
      name,
      limits: shown.length === 0 ? [{ text: notLimited }] : shown,
      boxes: this.facts.twice.has(name) ? [before, after] : [reading],
      unit: limits[0] === undefined ? '' : boxUnit(limits[0].limit.unit, this.scope.input),
    };
  }
}

/** In a notice nothing leads away from the danger. */
const plainLink = (one: Inline): Inline => (one.kind === 'link' ? { kind: 'text', text: one.text } : one);

const chip = (text: string): Inline[] => [
  { kind: 'chip', text },
  { kind: 'text', text: '\u2002' },
];

function capital(inline: readonly Inline[]): Inline[] {
  const [first, ...rest] = inline;
  return first === undefined ? [] : [{ ...first, text: first.text.charAt(0).toUpperCase() + first.text.slice(1) }, ...rest];
}
