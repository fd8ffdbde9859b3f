/** A procedure as passages in the order said: notices before what they guard, limits at the step that measures, each way on with its condition first. */
import { type LibraryFacts, noticeText, type ProcedureFacts } from '../checks/index.ts';
import type { Span } from '../finding.ts';
import type { ReadChild, ReadStep } from '../flow/index.ts';
import type { Block, Notice, Prose, Section, Step } from '../format/index.ts';
import type { LabelledStep } from '../numbering/index.ts';
import { type DecimalMark, decimalMarkOf, findQuantities } from '../quantities/index.ts';
import type { Action, Reading, Sentence } from '../reading/index.ts';
import type { Family, ListedName } from '../registers/index.ts';
import { appliesTo, modelsNamed } from './applies.ts';
import type { PassageKind, Shot } from './model.ts';
import { actionSeconds, waitSeconds } from './pace.ts';
import { saidLimits } from './said-limits.ts';
import { type ProsePlace, saidProse, shownProse } from './said-prose.ts';
import { listed, sentence, several, scriptWords as words } from './script-words.ts';
import { shotOf, TITLE_CARD } from './shots.ts';

/** A passage before its times and hashes. */
export interface BarePassage {
  readonly key: string;
  readonly kind: PassageKind;
  readonly section: string;
  readonly sectionTitle: string;
  readonly label?: string;
  readonly fullLabel?: string;
  readonly span: Span;
  readonly said: string;
  readonly screen: readonly string[];
  readonly shot: Shot;
  readonly wait: number;
  readonly action: number;
  readonly guards?: string;
  readonly models: readonly string[];
}

export function passagesOf(facts: ProcedureFacts, library: LibraryFacts, model?: string): readonly BarePassage[] {
  return new Teller(facts, library, model).all();
}

class Teller {
  private readonly facts: ProcedureFacts;
  private readonly library: LibraryFacts;
  private readonly mark: DecimalMark;
  private readonly model: string | undefined;
  private readonly applies: ReturnType<typeof appliesTo>;
  private readonly families: readonly Family[];
  private readonly read = new Map<Step, ReadStep>();
  private readonly out: BarePassage[] = [];
  private section: Section | undefined;

  constructor(facts: ProcedureFacts, library: LibraryFacts, model: string | undefined) {
    this.facts = facts;
    this.library = library;
    this.mark = decimalMarkOf(library.registers.house.language);
    this.model = model;
    this.applies = appliesTo(facts, model);
    const own = new Set(facts.machines.map((machine) => machine.name));
    this.families = library.registers.families.filter(({ name }) => own.has(name));
    for (const step of facts.read.steps) this.read.set(step.at.step, step);
  }

  all(): readonly BarePassage[] {
    this.opening();
    for (const section of this.facts.tree.sections) {
      this.section = section;
      if (section.prose) this.prose(section);
      else this.steps(section);
    }
    this.section = undefined;
    const { head } = this.facts;
    this.card('end', 'end', words.end(head.id), [head.id]);
    return this.out;
  }

  private opening(): void {
    const { head } = this.facts;
    const models = this.models();
    const said = [words.title(head.id, head.revision, head.title), models.length === 0 ? '' : words.models(listed(models)), words.caution];
    this.card('title', 'title', said.filter((one) => one !== '').join(' '), [`${head.id}  ${head.title}`, ...models]);
    const lists = (['protection', 'tools', 'parts', 'consumables'] as const).map((kind) => ({ kind, names: this.needed(head[kind]) }));
    const needs = lists.filter(({ names }) => names.length > 0).map(({ kind, names }) => words.needs[kind](listed(names)));
    const many = /^(?:[2-9]|\d{2,})$/.test(head.people ?? '') ? [words.people(head.people as string)] : [];
    if (needs.length + many.length === 0) return;
    const screen = lists.flatMap(({ names }) => names);
    const shot: Shot = { ...TITLE_CARD, inView: screen };
    this.out.push({ ...this.bare('needs', 'needs', head.titleSpan), said: [...many, ...needs].join(' '), screen, shot });
  }

  /** "2 personal locks"; what is for other models only is left out. */
  private needed(list: readonly ListedName[]): string[] {
    const models = this.models();
    return list
      .filter(({ name, models: only }) => name !== 'none' && (only === undefined || only.some((one) => models.includes(one))))
      .map(({ name, quantity, models: only }) => {
        const count = quantity === undefined || quantity === '1' ? name : `${quantity} ${several(name)}`;
        return only === undefined || this.model !== undefined ? count : `${count} for the ${listed(only)}`;
      });
  }

  private models(): readonly string[] {
    return this.model === undefined ? [...new Set(this.facts.machines.map(({ variant }) => variant.model))] : [this.model];
  }

  private card(kind: PassageKind, key: string, said: string, screen: readonly string[]): void {
    this.out.push({ ...this.bare(kind, key, this.section?.titleSpan ?? this.facts.head.titleSpan), said, screen });
  }

  private bare(kind: PassageKind, key: string, span: Span): Omit<BarePassage, 'said'> {
    const { section } = this;
    const place = { section: section?.id ?? '', sectionTitle: section?.title ?? '' };
    return { key, kind, ...place, span, screen: [], shot: TITLE_CARD, wait: 0, action: 0, models: [] };
  }

  private prose(section: Section): void {
    const said = this.running(section.blocks);
    if (said.length === 0) return;
    this.card('section', section.id, sentence(section.title), [section.title]);
    said.forEach(({ text, span }, index) => {
      this.out.push({ ...this.bare('remark', `${section.id} text ${index + 1}`, span), said: text });
    });
  }

  private running(blocks: readonly Block[]): { readonly text: string; readonly span: Span }[] {
    return blocks
      .flatMap((block) => {
        if (block.kind === 'paragraph') return [{ text: sentence(saidProse(block.prose, this.place())), span: block.span }];
        if (block.kind === 'bullets')
          return block.items.flatMap((item) => [
            { text: sentence(saidProse(item.prose, this.place())), span: item.span },
            ...this.running(item.blocks),
          ]);
        return [];
      })
      .filter(({ text }) => text !== '');
  }

  private place(from?: LabelledStep): ProsePlace {
    const titles = (number: string): string | undefined => this.library.procedures.find(({ head }) => head.id === number)?.head.title;
    return { facts: this.facts, titles, ...(from === undefined ? {} : { from }) };
  }

  /** Notices under the heading are said before its first step, one between two steps before the next (F8). */
  private steps(section: Section): void {
    this.card('section', section.id, sentence(section.title), [section.title]);
    let guards: readonly Notice[] = [];
    for (const block of section.blocks) {
      if (block.kind === 'notice') guards = [...guards, block];
      if (block.kind !== 'steps') continue;
      for (const step of block.steps) {
        const read = this.read.get(step);
        // A step that is not told takes its notices with it.
        if (read && this.told(read)) this.step(read, guards);
        guards = [];
      }
    }
  }

  private told({ lead }: ReadStep): boolean {
    const actions = actionsOf([lead]);
    return actions.length === 0 || actions.some((action) => this.applies(action.when));
  }

  private step(read: ReadStep, guards: readonly Notice[], branch = ''): void {
    const { at } = read;
    const { step } = at;
    const key = `${at.section.id} ${at.label}${branch}`;
    const label = { label: at.label, fullLabel: at.fullLabel };
    const own = step.children.filter((child): child is Notice => child.kind === 'notice');
    for (const [index, notice] of [...guards, ...own].entries()) this.notice(notice, at, `${key} notice ${index + 1}`, key);

    const bullets = read.children.flatMap((child) =>
      child.kind === 'objects' ? child.items.map((reading, n) => ({ reading, prose: child.proses?.[n] })) : [],
    );
    const paragraphs = read.children.flatMap((child) =>
      child.kind === 'prose' && child.child.kind === 'paragraph' ? [{ reading: child.reading, prose: child.child.prose }] : [],
    );
    const readings = [read.lead, ...[...bullets, ...paragraphs].map(({ reading }) => reading)];
    const actions = actionsOf(readings);
    const limits = this.measured(actions).map((one) => saidLimits(one, this.facts, this.library, this.models()));
    const runs = [
      saidProse(step.lead, this.place(at), read.lead),
      listed(bullets.flatMap(({ prose }) => (prose ? [saidProse(prose, this.place(at)).replace(/[.,;]$/, '')] : []))),
      ...paragraphs.map(({ reading, prose }) => saidProse(prose, this.place(at), reading)),
      ...limits.map(({ said }) => said),
    ];
    this.out.push({
      ...this.bare('step', key, { start: step.span.start, end: step.lead.span.end }),
      ...label,
      said: joined(runs),
      screen: [
        `${words.labelled} ${at.label}`,
        ...this.shown([step.lead, ...[...bullets, ...paragraphs].flatMap(({ prose }) => prose ?? [])], at),
        ...limits.flatMap(({ screen }) => screen),
      ],
      shot: shotOf(actions, at, this.facts, this.families),
      wait: waitSeconds(
        readings.flatMap(({ sentences }) => sentences),
        this.mark,
      ),
      action: actionSeconds(actions),
      models: [...new Set(actions.flatMap((action) => modelsNamed(action.when)))],
    });
    this.children(read.children, at, key);
  }

  private children(children: readonly ReadChild[], at: LabelledStep, key: string): void {
    for (const child of children) {
      if (child.kind === 'substeps') for (const sub of child.steps) if (this.told(sub)) this.step(sub, []);
      if (child.kind === 'branches')
        child.branches.forEach(({ branch, condition, lead, children: below }, index) => {
          if (!this.applies(condition.when)) return;
          this.branch(branch, condition, lead, at, `${key} branch ${index + 1}`);
          for (const child of branch.children)
            if (child.kind === 'notice') this.notice(child, at, `${key} branch ${index + 1} notice`, key);
          this.children(below, at, `${key} branch ${index + 1}`);
        });
    }
  }

  private branch(
    branch: Extract<ReadChild, { kind: 'branches' }>['branches'][number]['branch'],
    condition: Reading,
    lead: Reading,
    at: LabelledStep,
    key: string,
  ): void {
    const actions = actionsOf([lead]);
    const opening = branch.otherwise ? words.otherwise : sentence(this.opened(branch)).replace(/\.$/, '');
    const then = saidProse(branch.lead, this.place(at), lead);
    this.out.push({
      ...this.bare('branch', key, branch.span),
      label: at.label,
      fullLabel: at.fullLabel,
      said: joined([`${opening}, ${/^[A-Z][a-z]/.test(then) ? then.charAt(0).toLowerCase() + then.slice(1) : then}`]),
      screen: this.shown([branch.lead], at),
      shot: shotOf(actions, at, this.facts, this.families),
      wait: waitSeconds(lead.sentences, this.mark),
      action: actionSeconds(actions),
      models: modelsNamed(condition.when),
    });
  }

  /** The word before the condition ("If", "For the", "When") is kept as the writer has it. */
  private opened({ span, condition }: { readonly span: Span; readonly condition: Prose }): string {
    const { text } = this.facts.tree.source;
    const word = /^\s*[-*+]\s+(.*)$/s.exec(text.slice(span.start, condition.span.start))?.[1] ?? '';
    return `${word.replace(/[[\]*]/g, '')}${saidProse(condition, this.place())}`.replace(/[\s,:]+$/, '');
  }

  private notice(notice: Notice, at: LabelledStep, key: string, guards: string): void {
    const use = notice.attributes?.entries.find((entry) => entry.key === 'use')?.value;
    const standing = this.library.registers.notices.find((one) => one.name === use)?.text ?? '';
    const own = this.running(notice.blocks)
      .map(({ text }) => text)
      .join(' ');
    const text = own || standing || noticeText(notice);
    this.out.push({
      ...this.bare('notice', key, notice.span),
      label: at.label,
      fullLabel: at.fullLabel,
      said: joined([sentence(words.notice[notice.word]), text]),
      screen: [`${words.notice[notice.word].toUpperCase()}: ${text}`],
      shot: shotOf([], at, this.facts, this.families),
      guards,
    });
  }

  private measured(actions: readonly Action[]) {
    const names = new Set(
      actions
        .filter(({ kind }) => kind === 'measure' || kind === 'sense')
        .flatMap(({ things }) => things.flatMap(({ thing }) => (thing.kind === 'measurement' ? [thing.name] : []))),
    );
    return this.facts.head.measurements.filter(({ name }) => names.has(name));
  }

  /** What the voice leaves out or the ear does not keep: values, in both units, and callouts. */
  private shown(proses: readonly Prose[], at: LabelledStep): string[] {
    return proses.flatMap((prose) => {
      const text = shownProse(prose, this.place(at));
      const values = findQuantities(text, this.mark).map(({ at: from, end, second }) => text.slice(from, second?.end ?? end).trim());
      const callouts = [...text.matchAll(/((?:[\w-]+ ){1,3})\((\d{1,2})\)/g)].map(
        ([, name, number]) => `(${number}) ${(name ?? '').trim().replace(/^(?:the|a|an|two|and|of|from|with|to) /, '')}`,
      );
      return [...values, ...callouts];
    });
  }
}

const joined = (runs: readonly string[]): string =>
  runs
    .filter((run) => run.trim() !== '')
    .map(sentence)
    .join(' ');
const actionsOf = (readings: readonly { readonly sentences: readonly Sentence[] }[]): readonly Action[] =>
  readings.flatMap(({ sentences }) => sentences.flatMap(({ actions }) => actions));
