/** A procedure as data for whoever ticks it off: labels, words, notices, limits and branches as the guide prints them. */
import {
  type Block,
  type Branch,
  type LabelledStep,
  type ListedName,
  type Measurement,
  type Notice,
  type ProcedureFacts,
  type ReadChild,
  type Reading,
  type ReadStep,
  type Resolved,
  type Section,
  type Step,
  type StepChild,
  toText,
} from '../../procedures-schema/index.ts';
import {
  type Applies,
  appliesIn,
  assertEdition,
  type ComposeInput,
  detailOf,
  inlineOf,
  labelled,
  limitsPrinted,
  listedFor,
  machinesOf,
  measurementsAt,
  noticeWords,
  plainOf,
  type Scope,
  scopeOf,
  tableRows,
  valuesIn,
} from '../compose/index.ts';
import { printedWords } from '../printed-words/index.ts';
import { contentHash } from './canonical.ts';
import type {
  Checklist,
  ChecklistBlock,
  ChecklistBranch,
  ChecklistEntry,
  ChecklistNotice,
  ChecklistSection,
  ChecklistStep,
  ChecklistThing,
} from './model.ts';

export function checklistOf(facts: ProcedureFacts, asked: ComposeInput): Checklist {
  assertEdition(facts, asked);
  // Data are no edition: a program converts by itself, and the words of a limit must say the same as its numbers.
  const { units: _, ...input } = asked;
  const scope = scopeOf(facts, input, new Set());
  const { head } = facts;
  const { house } = input.library.registers;
  const words = printedWords(house.language).book;
  const things = (list: readonly ListedName[]): ChecklistThing[] =>
    list.filter((entry) => entry.name !== 'none' && listedFor(entry, scope)).map((entry) => thing(entry, scope));
  const builder = new Builder(scope);
  const content: Omit<Checklist, 'contentHash'> = {
    format: 'handsclear-checklist/1',
    document: {
      number: head.id,
      title: head.title,
      revision: head.revision ?? '-',
      date: head.date ?? '0000-00-00',
      publisher: house.publisher,
      language: house.language,
    },
    ...(input.model === undefined ? {} : { model: input.model }),
    machines: machinesOf(scope).map((machine) => machine.variant.name),
    draft: input.draft,
    ...(input.draft ? { draftLine: 'DRAFT: NOT FOR FIELD USE' as const } : {}),
    cautions: words.cautions,
    startsWith: words.state[head.startsWith] ?? head.startsWith,
    ...(head.endsWith === undefined ? {} : { endsWith: words.state[head.endsWith] ?? head.endsWith }),
    ...said('time', head.time),
    ...said('people', head.people),
    ...said('audience', head.audience),
    ...(head.requires.length === 0 ? {} : { requires: head.requires.map(({ name }) => name) }),
    ...said('liveTask', head.liveTask?.because),
    tools: things(head.tools),
    consumables: things(head.consumables),
    parts: things(head.parts),
    protection: things(head.protection),
    sections: facts.tree.sections.map((section) => builder.section(section)),
  };
  const { format, document, ...rest } = content;
  return { format, document, contentHash: contentHash(content), ...rest };
}

const said = <K extends string>(key: K, value: string | undefined): { readonly [P in K]?: string } =>
  value === undefined || value === '' ? {} : ({ [key]: value } as { readonly [P in K]?: string });

function thing(entry: ListedName, scope: Scope): ChecklistThing {
  const { models: _, note: __, ...bare } = entry;
  const detail = detailOf(bare, scope.input.library.registers, scope);
  return {
    name: entry.name,
    ...said('quantity', entry.quantity),
    ...said('detail', detail),
    ...(entry.models === undefined || entry.models.length === 0 ? {} : { models: entry.models }),
    ...said('note', entry.note),
  };
}

class Builder {
  private readonly scope: Scope;
  private readonly applies: Applies;
  private readonly measured: ReadonlyMap<Step, readonly Measurement[]>;
  private readonly read = new Map<Step, ReadStep>();
  private readonly conditions = new Map<Branch, { readonly condition: Reading; readonly lead: Reading }>();

  constructor(scope: Scope) {
    this.scope = scope;
    this.applies = appliesIn(scope);
    this.measured = measurementsAt(scope);
    const visit = (step: ReadStep): void => {
      this.read.set(step.at.step, step);
      step.children.forEach(child);
    };
    const child = (one: ReadChild): void => {
      if (one.kind === 'substeps') one.steps.forEach(visit);
      if (one.kind === 'branches')
        for (const { branch, condition, lead, children } of one.branches) {
          this.conditions.set(branch, { condition, lead });
          children.forEach(child);
        }
    };
    scope.facts.read.steps.forEach(visit);
  }

  section(section: Section): ChecklistSection {
    const items: (ChecklistNotice | ChecklistStep | ChecklistBlock)[] = [];
    let guards: ChecklistNotice[] = [];
    let begun = false;
    for (const block of section.blocks) {
      if (block.kind === 'notice') {
        if (begun) guards.push(this.notice(block));
        else items.push(this.notice(block));
      } else if (block.kind === 'steps') {
        const steps = this.steps(block.steps, guards);
        if (steps.length > 0) {
          guards = [];
          begun = true;
        }
        items.push(...steps);
      } else items.push(...this.blocks(block));
    }
    return { title: section.title, id: section.id, aside: section.aside, items: [...items, ...guards] };
  }

  private notice(notice: Notice): ChecklistNotice {
    const use = notice.attributes?.entries.find((entry) => entry.key === 'use')?.value;
    const standing = this.scope.input.library.registers.notices.find((one) => one.name === use)?.text;
    return {
      kind: 'notice',
      word: notice.word,
      panel: this.scope.words.panel[notice.word],
      text: noticeWords(notice, this.scope) || standing || this.scope.words.panel[notice.word],
    };
  }

  private steps(steps: readonly Step[], first: readonly ChecklistNotice[]): ChecklistStep[] {
    let guards = first;
    return steps.filter(this.applies.step).map((step) => {
      const made = this.step(step, guards);
      guards = [];
      return made;
    });
  }

  private step(step: Step, guards: readonly ChecklistNotice[]): ChecklistStep {
    const at = labelled(step, this.scope);
    const below = this.below(step.children, at);
    const [entry = { kind: 'tick' } as const, ...more] = (this.measured.get(step) ?? []).map((one) => this.entry(one));
    // A second value at the same step is told in words: a line holds one box.
    const extra = more.map((one): ChecklistBlock => ({ kind: 'text', text: 'measurement' in one ? one.measurement : '' }));
    const details = [...extra, ...below.details];
    const onlyOn = this.onlyOn(step);
    return {
      kind: 'step',
      label: at.label,
      fullLabel: at.fullLabel,
      ...said('id', step.id),
      text: plainOf(inlineOf(step.lead, this.scope, at)) || at.label,
      ...(onlyOn.length === 0 ? {} : { onlyOn }),
      notices: [...guards, ...below.notices],
      entry,
      ...said('film', this.film(at)),
      ...(details.length === 0 ? {} : { details }),
      ...(below.substeps.length === 0 ? {} : { substeps: below.substeps }),
      ...(below.branches.length === 0 ? {} : { branches: below.branches }),
    };
  }

  /** Where the film of the procedure shows the step. */
  private film({ section, label }: LabelledStep): string | undefined {
    const links = this.scope.input.films?.get(this.scope.facts.head.id);
    return links?.find((link) => link.section === section.id && link.label === label)?.address;
  }

  private below(children: readonly StepChild[], at: LabelledStep) {
    const notices: ChecklistNotice[] = [];
    const details: ChecklistBlock[] = [];
    const substeps: ChecklistStep[] = [];
    const branches: ChecklistBranch[] = [];
    let pending: ChecklistNotice[] = [];
    for (const child of children) {
      if (child.kind === 'notice') pending.push(this.notice(child));
      else if (child.kind === 'substeps') {
        substeps.push(...this.steps(child.steps, pending));
        pending = [];
      } else if (child.kind === 'branches') branches.push(...child.branches.filter(this.applies.branch).map((one) => this.branch(one, at)));
      else if (child.kind === 'objects')
        details.push(...child.items.map((item): ChecklistBlock => ({ kind: 'text', text: plainOf(inlineOf(item.prose, this.scope, at)) })));
      else details.push(...this.blocks(child, at));
    }
    // One branch left in a one-model edition is no choice any more.
    const [only] = branches;
    if (branches.length === 1 && only !== undefined) {
      details.push({ kind: 'text', text: `${only.condition}: ${only.text}` });
      notices.push(...only.notices);
      substeps.push(...(only.substeps ?? []));
      branches.length = 0;
    }
    notices.push(...pending);
    return { notices, details: details.filter((one) => one.kind !== 'text' || one.text !== ''), substeps, branches };
  }

  private branch(branch: Branch, at: LabelledStep): ChecklistBranch {
    const read = this.conditions.get(branch);
    const below = this.below(branch.children, at);
    const outcome = read?.condition.when?.find((one) => one.kind === 'outcome')?.outcome;
    const sent = read?.lead.sentences.flatMap((sentence) => sentence.actions).find((action) => action.target !== undefined)?.target;
    const target = sent === undefined ? undefined : placeName(this.scope.facts.read.resolve(sent, at));
    return {
      condition: branch.condition.text,
      otherwise: branch.otherwise,
      ...(outcome === undefined || outcome === 'not-within' ? {} : { outcome }),
      text: [plainOf(inlineOf(branch.lead, this.scope, at)), ...below.details.map((one) => (one.kind === 'text' ? one.text : ''))]
        .filter((part) => part !== '')
        .join(' '),
      notices: below.notices,
      ...said('target', target),
      ...(below.substeps.length === 0 ? {} : { substeps: below.substeps }),
    };
  }

  private entry(measurement: Measurement): ChecklistEntry {
    const printed = (text: string): string => valuesIn(text, this.scope.input);
    const where = said('at', measurement.at === undefined ? undefined : printed(measurement.at));
    if (measurement.sensed !== undefined) {
      const { pass, fail } = measurement.sensed;
      return { kind: 'verdict', measurement: measurement.name, ...where, pass: printed(pass), fail: printed(fail) };
    }
    const limits = limitsPrinted(measurement, this.scope);
    return {
      kind: 'reading',
      measurement: measurement.name,
      quantity: measurement.quantity,
      ...where,
      ...said('with', measurement.with),
      unit: limits[0]?.limit.unit.symbol ?? '',
      limits: limits.map(({ model, limit, text }) => ({
        ...said('model', model),
        ...(model === undefined || limit.serial === undefined ? {} : { serial: limit.serial }),
        ...(limit.lower === undefined ? {} : { lower: toText(limit.lower.value) }),
        ...(limit.upper === undefined ? {} : { upper: toText(limit.upper.value) }),
        text,
      })),
    };
  }

  /** Models a step is done on, where its own words name them. */
  private onlyOn(step: Step): string[] {
    const actions = this.read.get(step)?.lead.sentences.flatMap((sentence) => sentence.actions) ?? [];
    const named = actions.map((action) => action.when.flatMap((one) => (one.kind === 'variant' && !one.negated ? one.models : [])));
    return named.length > 0 && named.every((models) => models.length > 0) ? [...new Set(named.flat())] : [];
  }

  private blocks(block: Block | Exclude<StepChild, { kind: 'substeps' | 'branches' | 'objects' }>, from?: LabelledStep): ChecklistBlock[] {
    const text = (prose: Parameters<typeof inlineOf>[0]): ChecklistBlock[] => {
      const words = plainOf(inlineOf(prose, this.scope, from)).trim();
      return words === '' ? [] : [{ kind: 'text', text: words }];
    };
    switch (block.kind) {
      case 'paragraph':
        return text(block.prose);
      case 'code':
        return block.value === '' ? [] : [{ kind: 'text', text: block.value }];
      case 'bullets':
        return block.items.flatMap((item) => [...text(item.prose), ...item.blocks.flatMap((one) => this.blocks(one, from))]);
      case 'table':
        return [
          {
            kind: 'table',
            ...said('id', block.id),
            head: block.head.map((cell) => plainOf(inlineOf(cell.prose, this.scope, from))),
            rows: tableRows(block, this.scope, from).map((cells) => cells.map(plainOf)),
          },
        ];
      case 'figure':
        return [{ kind: 'figure', path: block.path, alt: block.alt || block.path }];
      default:
        return [];
    }
  }
}

/** Where a branch sends the reader, in words. */
function placeName(resolved: Resolved): string | undefined {
  if (resolved.kind === 'step') return resolved.step.fullLabel;
  if (resolved.kind === 'range') return resolved.from.fullLabel;
  if (resolved.kind === 'section') return resolved.section.title;
  if (resolved.kind === 'document') return resolved.number;
  return undefined;
}
