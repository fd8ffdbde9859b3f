/**
 * Puts the pieces of one procedure together for the proof: each labelled step with the reading of its lead and of all that hangs
 * below it, and the notices that guard it. Reads no files and words nothing.
 */
import { noticeText } from './checks/index.ts';
import type { ReadChild, ReadStep } from './flow/index.ts';
import type { Branch, Notice, Procedure, Prose, Section, Step, StepChild } from './format/index.ts';
import type { LabelledStep, Labels } from './numbering/index.ts';
import { type Reading, type ReadingContext, readProse, saidOutright, saysStandClear } from './reading/index.ts';
import { Recent } from './recent.ts';
import type { Thing } from './registers/index.ts';

/** Everything a sentence needs besides what it stands in. */
export type StandingContext = Omit<ReadingContext, 'kind' | 'carry' | 'carryAll' | 'lead' | 'override'>;

type GuardNotice = ReadStep['notices'][number];

/** Remembers readings by the text read and all that can change them, so that an edit re-reads one step. */
export type ReadingCache = Recent<string, Reading>;

/** The readings of about a hundred procedures. */
export const newReadingCache = (): ReadingCache => new Recent(4000);

export function readSteps(tree: Procedure, labels: Labels, standing: StandingContext, cache: ReadingCache): readonly ReadStep[] {
  const out: ReadStep[] = [];
  for (const section of tree.sections) {
    if (section.prose) continue;
    out.push(...readSection(section, labels, standing, cache));
  }
  return out;
}

function readSection(section: Section, labels: Labels, standing: StandingContext, cache: ReadingCache): ReadStep[] {
  const reader = new Reader(standing, cache);
  const out: ReadStep[] = [];
  let sectionNotices: GuardNotice[] = [];
  let pending: GuardNotice[] = [];
  for (const block of section.blocks) {
    if (block.kind === 'notice') {
      // Under the heading a notice guards every step of the section; between two steps the next one (F8).
      if (out.length === 0) sectionNotices = [...sectionNotices, guardOf(block)];
      else pending.push(guardOf(block));
    } else if (block.kind === 'steps') {
      for (const step of block.steps) {
        out.push(reader.step(step, labels, [...sectionNotices, ...pending]));
        pending = [];
      }
    }
  }
  return out;
}

/** Carries what "it" stands for from one prose run to the next, in document order. */
class Reader {
  private carry: Thing | undefined;
  private carryAll: readonly Thing[] | undefined;
  private readonly standing: StandingContext;
  private readonly cache: ReadingCache;

  constructor(standing: StandingContext, cache: ReadingCache) {
    this.standing = standing;
    this.cache = cache;
  }

  step(step: Step, labels: Labels, guards: readonly GuardNotice[]): ReadStep {
    const at = labels.byStep.get(step) as LabelledStep;
    const lead = this.read(step.lead, 'lead', undefined, overrideOf(step));
    const own = step.children.filter((child): child is Notice => child.kind === 'notice').map(guardOf);
    return { at, lead, notices: [...guards, ...own], children: this.children(step.children, labels, lead) };
  }

  private children(children: readonly StepChild[], labels: Labels, lead: Reading): ReadChild[] {
    const out: ReadChild[] = [];
    let pending: GuardNotice[] = [];
    for (const child of children) {
      switch (child.kind) {
        case 'notice':
          pending = [...pending, guardOf(child)];
          break;
        case 'substeps':
          out.push({ kind: 'substeps', steps: child.steps.map((step, index) => this.step(step, labels, index === 0 ? pending : [])) });
          pending = [];
          break;
        case 'branches':
          out.push({ kind: 'branches', branches: child.branches.map((branch) => this.branch(branch, labels)) });
          break;
        case 'objects':
          out.push({
            kind: 'objects',
            items: child.items.map((item) => this.read(item.prose, 'bullet', lead)),
            proses: child.items.map((item) => item.prose),
          });
          break;
        case 'paragraph':
          out.push({ kind: 'prose', child, reading: this.read(child.prose, 'paragraph') });
          break;
        default: // tables, figures and code are looked at by checks, never acted on
          break;
      }
    }
    return out;
  }

  private branch(branch: Branch, labels: Labels): Extract<ReadChild, { kind: 'branches' }>['branches'][number] {
    // What "it" stands for when a branch starts is what it stood for before the bullets, whichever branch came before.
    const before = this.carry;
    const beforeAll = this.carryAll;
    const condition = this.read(branch.condition, 'condition');
    const lead = this.read(branch.lead, 'branch');
    const children = this.children(branch.children, labels, lead);
    this.carry = before;
    this.carryAll = beforeAll;
    return { branch, condition, lead, children };
  }

  private read(prose: Prose, kind: ReadingContext['kind'], lead?: Reading, override?: ReadingContext['override']): Reading {
    const context: ReadingContext = {
      ...this.standing,
      kind,
      ...(this.carry ? { carry: this.carry } : {}),
      ...(this.carryAll ? { carryAll: this.carryAll } : {}),
      ...(lead ? { lead } : {}),
      ...(override ? { override } : {}),
    };
    const key = cacheKey(prose, kind, this.carry, this.carryAll, lead, override);
    let reading = this.cache.get(key);
    if (!reading) {
      reading = readProse(prose, context);
      this.cache.set(key, reading);
    }
    this.carry = reading.carry;
    this.carryAll = reading.carryAll;
    return reading;
  }
}

/** A reading depends on the words, the marks in them, and what comes in; offsets inside a reading are relative to the prose. */
function cacheKey(
  prose: Prose,
  kind: string,
  carry: Thing | undefined,
  carryAll: readonly Thing[] | undefined,
  lead: Reading | undefined,
  override: ReadingContext['override'],
): string {
  let key = `${kind}\n${prose.text}\n`;
  for (const mark of prose.marks)
    key += mark.kind === 'reference' ? `${mark.at},${mark.end},${JSON.stringify(mark.form)};` : `${mark.kind}${mark.at},${mark.end};`;
  if (carryAll) key += `\n&${carryAll.map(({ kind: one, name }) => `${one}:${name}`).join(',')}`;
  if (carry) key += `\n^${carry.kind}:${carry.name}`;
  if (lead) key += `\n>${lead.sentences.map((s) => `${s.status}${s.text}`).join('|')}`;
  if (override) key += `\n!${override.reads}|${override.because}|${override.by}|${override.span.start}`;
  return key;
}

/** One that is unsigned, or was said of other words, says nothing: the step is then read as it stands. */
function overrideOf(step: Step): ReadingContext['override'] {
  const said = saidOutright(step.attributes, step.lead.text);
  return said?.amiss.length === 0 ? said : undefined;
}

function guardOf(notice: Notice): GuardNotice {
  const text = noticeText(notice);
  return { word: notice.word, text, standClear: saysStandClear(text), span: notice.span };
}
