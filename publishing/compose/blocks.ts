/** The sections of a procedure as blocks of a book: steps with their labels, notices at the step they guard, tables, figures, boxes to write in. */
import type {
  Block,
  Branch,
  Figure,
  LabelledStep,
  Measurement,
  Notice,
  Section,
  Step,
  StepChild,
  Table,
} from '../../procedures-schema/index.ts';
import type { BookBlock, Flow, Inline, NoticeBlock } from '../book.ts';
import { bandBeside } from './band-beside.ts';
import { earthsIn } from './earths.ts';
import { type Applies, appliesIn } from './edition.ts';
import { measurementsAt } from './entries.ts';
import { filmCodes } from './film-codes.ts';
import { inlineOf } from './inline.ts';
import { limitLines, limitsPrinted } from './limits-text.ts';
import { hazardOf, saidBy, standingText } from './notice-words.ts';
import { labelled, type Scope, sectionAnchor, stepAnchor, thingAnchor } from './scope.ts';
import { backFrom, endsHere, sentHere } from './sent-here.ts';
import { tableRows } from './table-rows.ts';
import { boxUnit, valuesIn } from './units-edition.ts';

const plain = (text: string): Inline[] => [{ kind: 'text', text }];

export function sectionsOf(scope: Scope): Flow {
  const composer = new Composer(scope);
  return [...composer.blocks(scope.facts.tree.preface), ...scope.facts.tree.sections.flatMap((section) => composer.section(section))];
}

export function noticeBlock(notice: Notice, scope: Scope): NoticeBlock {
  return new Composer(scope).notice(notice);
}

/** With a capital, where it begins with a word: "mm" stays what it is. */
function capital([first, ...rest]: readonly Inline[]): readonly Inline[] {
  if (first === undefined) return rest;
  const text = /^\p{Ll}{3}/u.test(first.text) ? `${first.text.charAt(0).toUpperCase()}${first.text.slice(1)}` : first.text;
  return [{ ...first, text }, ...rest];
}

class Composer {
  private readonly scope: Scope;
  private readonly applies: Applies;
  private readonly measured: ReadonlyMap<Step, readonly Measurement[]>;
  private readonly earths: ReadonlySet<number>;

  constructor(scope: Scope) {
    this.scope = scope;
    this.applies = appliesIn(scope);
    this.measured = measurementsAt(scope);
    this.earths = earthsIn(scope);
  }

  section(section: Section): BookBlock[] {
    const { facts } = this.scope;
    const level = Math.min(4, Math.max(2, section.level)) as 2 | 3 | 4;
    const anchor = sectionAnchor(facts.head.id, section);
    const heading: BookBlock = { kind: 'heading', level, text: section.title, anchor, bookmark: !section.prose };
    const out: BookBlock[] = [heading, ...sentHere(section, this.scope), ...filmCodes(section, this.scope, this.measured)];
    // A notice between two steps guards the next one and never parts from it (F8); under the heading it guards them all.
    let guards: NoticeBlock[] = [];
    let begun = false;
    for (const block of section.blocks) {
      if (block.kind === 'notice' && begun) guards.push(this.notice(block));
      else if (block.kind === 'steps') {
        const steps = this.steps(block.steps, guards);
        if (steps.length > 0) {
          guards = [];
          begun = true;
        }
        out.push(...steps);
      } else if (block.kind === 'notice') out.push(this.governing(block, `${anchor} notice ${out.length}`));
      else out.push(...this.block(block));
    }
    // Steps that do not apply take their notices with them, except when nothing follows to carry them.
    return [...out, ...guards, ...backFrom(section, this.scope), ...endsHere(section, this.scope)];
  }

  blocks(blocks: readonly Block[], from?: LabelledStep): BookBlock[] {
    return blocks.flatMap((block) => this.block(block, from));
  }

  notice(notice: Notice): NoticeBlock {
    const { words, input } = this.scope;
    const own = this.blocks(notice.blocks);
    const standing = own.length > 0 ? undefined : standingText(notice, input);
    const body: Flow = standing === undefined ? own : [{ kind: 'paragraph', inline: plain(standing) }];
    return { kind: 'notice', word: notice.word, panel: words.panel[notice.word], body };
  }

  /** Under the heading: it guards every step of the section. Harm to people is told again on each page, harm to things is not. */
  private governing(notice: Notice, anchor: string): NoticeBlock {
    const made = this.notice(notice);
    const hazard = notice.word === 'notice' ? '' : hazardOf(saidBy(notice, this.scope));
    return hazard === '' ? made : { ...made, recall: { anchor, hazard } };
  }

  private steps(steps: readonly Step[], first: readonly NoticeBlock[]): BookBlock[] {
    let guards = first;
    return steps.filter(this.applies.step).map((step) => {
      const made = this.step(step, guards);
      guards = [];
      return made;
    });
  }

  private step(step: Step, guards: readonly NoticeBlock[]): BookBlock {
    const { facts } = this.scope;
    const at = labelled(step, this.scope);
    const body: BookBlock[] = [{ kind: 'paragraph', inline: inlineOf(step.lead, this.scope, at) }];
    for (const measurement of this.measured.get(step) ?? []) body.push(...this.entry(measurement, at));
    const notices = [...guards];
    let pending: NoticeBlock[] = [];
    for (const child of step.children) {
      if (child.kind === 'notice') pending.push(this.notice(child));
      else if (child.kind === 'substeps') {
        body.push(...this.steps(child.steps, pending));
        pending = [];
      } else body.push(...this.child(child, at));
    }
    // A notice inside a step with nothing below it to guard guards the step itself.
    notices.push(...pending);
    const band = bandBeside(at, facts);
    const next = facts.read.labels.steps[at.order + 1];
    const after = next?.section === at.section && band !== 'unknown' ? facts.flow.bands.get(next) : undefined;
    return {
      kind: 'step',
      label: at.label,
      anchor: stepAnchor(facts.head.id, at.order),
      depth: 0,
      body,
      notices,
      // Substeps stand beside the band of their step.
      ...(at.path.length === 1 ? { band } : {}),
      // Hands are in the machine while it is open: a page should not have to be turned there.
      ...(after === undefined ? {} : { safeAfter: after !== 'open' && after !== 'cut' }),
      ...(this.earths.has(at.order) ? { earths: true as const } : {}),
    };
  }

  private child(child: Exclude<StepChild, Notice | { kind: 'substeps' }>, at: LabelledStep): BookBlock[] {
    switch (child.kind) {
      case 'branches':
        return [{ kind: 'bullets', items: child.branches.filter(this.applies.branch).map((branch) => this.branch(branch, at)) }];
      case 'objects':
        return [
          {
            kind: 'bullets',
            items: child.items.map((item): Flow => [{ kind: 'paragraph', inline: inlineOf(item.prose, this.scope, at) }]),
          },
        ];
      default:
        return this.block(child, at);
    }
  }

  /** The condition as written, in strong type, then what is done. */
  private branch(branch: Branch, at: LabelledStep): Flow {
    const { text } = this.scope.facts.tree.source;
    const opening = (end: number): string =>
      text
        .slice(branch.span.start, end)
        .replace(/^\s*[-*+]\s+/, '')
        .replace(/[[\]*]/g, '')
        .replace(/\s+/g, ' ');
    const condition = branch.otherwise
      ? opening(branch.lead.span.start).replace(/[\s,:]+$/, '')
      : opening(branch.condition.span.start) + branch.condition.text;
    const between = text.slice(branch.condition.span.end, branch.lead.span.start);
    const mark = between.includes(':') ? ':' : ',';
    const lead = inlineOf(branch.lead, this.scope, at);
    const head: Inline[] = [{ kind: 'strong', text: `${condition}${mark}` }, { kind: 'text', text: ' ' }, ...lead];
    const body: BookBlock[] = [{ kind: 'paragraph', inline: head }];
    let pending: NoticeBlock[] = [];
    for (const child of branch.children) {
      if (child.kind === 'notice') pending.push(this.notice(child));
      else if (child.kind === 'substeps') {
        body.push(...this.steps(child.steps, pending));
        pending = [];
      } else body.push(...this.child(child, at));
    }
    return [...pending, ...body];
  }

  private block(block: Block | Exclude<StepChild, { kind: 'substeps' | 'branches' | 'objects' }>, from?: LabelledStep): BookBlock[] {
    switch (block.kind) {
      case 'paragraph':
        return block.prose.text.trim() === '' ? [] : [{ kind: 'paragraph', inline: inlineOf(block.prose, this.scope, from) }];
      case 'code':
        return codeLines(block.value).map((line) => ({
          kind: 'paragraph',
          style: 'limit',
          inline: [{ kind: 'code', text: columned(line) }],
        }));
      case 'bullets':
        return [
          {
            kind: 'bullets',
            items: block.items.map(
              (item): Flow => [{ kind: 'paragraph', inline: inlineOf(item.prose, this.scope, from) }, ...this.blocks(item.blocks, from)],
            ),
          },
        ];
      case 'notice':
        return [this.notice(block)];
      case 'table':
        return [this.table(block, from)];
      case 'figure':
        return [this.figure(block)];
      case 'steps':
        return this.steps(block.steps, []);
    }
  }

  private table(table: Table, from: LabelledStep | undefined): BookBlock {
    const { words, facts } = this.scope;
    const count = this.scope.tableNumbers.get(table) ?? 0;
    const measurement = facts.head.measurements.find((one) => one.table !== undefined && one.table === table.id);
    const about = measurement === undefined ? '' : ` ${words.limits}: ${measurement.name}`;
    return {
      kind: 'table',
      head: table.head.map((cell) => {
        const head = inlineOf(cell.prose, this.scope, from);
        // Named after the measurement, as the format wants it; printed as a head.
        return measurement === undefined ? head : capital(head);
      }),
      rows: tableRows(table, this.scope, from),
      align: table.head.map((cell) => cell.align ?? 'left'),
      caption: `${words.table} ${count}.${about}`,
      anchor: thingAnchor(facts.head.id, 'table', count),
    };
  }

  private figure(figure: Figure): BookBlock {
    const { words, facts, input } = this.scope;
    const count = this.scope.figureNumbers.get(figure) ?? 0;
    return {
      kind: 'figure',
      alt: figure.alt,
      // The number of a callout stays with its name.
      caption: `${words.figure} ${count}. ${figure.alt.replace(/ (\d{1,2})\b/g, '\u00a0$1')}`,
      anchor: thingAnchor(facts.head.id, 'figure', count),
      image: input.figures.get(figure.path) ?? { kind: 'missing', path: figure.path },
    };
  }

  /** The limits stand where the value is read, with a box for it. */
  private entry(measurement: Measurement, at: LabelledStep): BookBlock[] {
    const { words } = this.scope;
    if (measurement.sensed !== undefined) {
      const { pass, fail } = measurement.sensed;
      // As limits are: what to judge by stands apart from what to do then.
      const judged = (word: string, said: string): BookBlock => ({
        kind: 'paragraph',
        style: 'limit',
        inline: [{ kind: 'strong', text: `${word}: ` }, ...plain(valuesIn(said, this.scope.input))],
      });
      const field = `${this.scope.facts.head.id}, ${at.section.title}, ${at.fullLabel}, ${measurement.name}`;
      const box: BookBlock = { kind: 'choice', label: measurement.name, choices: [words.passes, words.fails], field };
      return [judged(words.passes, pass), judged(words.fails, fail), box];
    }
    const own = limitsPrinted(measurement, this.scope)[0]?.limit.unit;
    const unit = own && boxUnit(own, this.scope.input);
    const lines = limitLines(measurement, this.scope).map(
      ({ names, text }): BookBlock => ({
        kind: 'paragraph',
        style: 'limit',
        inline: [{ kind: 'strong', text: `${names === '' ? words.limits : names}: ` }, ...plain(text)],
      }),
    );
    return [
      ...lines,
      {
        kind: 'write-in',
        label: measurement.name,
        field: `${this.scope.facts.head.id}, ${at.section.title}, ${at.fullLabel}, ${measurement.name}`,
        ...(unit === undefined || unit === '' ? {} : { unit }),
      },
    ];
  }
}

/** What stands in columns stays in them. */
const columned = (line: string): string => line.replace(/ {2,}/g, (run) => '\u00a0'.repeat(run.length));

/** Each line of a listing is a line on paper: run together, settings of a machine cannot be told apart. */
export const codeLines = (value: string): readonly string[] => value.split(/\r\n|\n|\r/).filter((line) => line.trim() !== '');
