/** Where references and typed labels lead (F3, F9). Finding them in the text is typed-words.ts; wording a dead end is checks/. */
import { foldText, type Procedure, type ReferenceForm, type Section } from '../format/index.ts';
import type { Target } from '../reading/index.ts';
import { labelPath, sameLabel } from './label-text.ts';
import type { LabelledStep, Labels, Resolved } from './model.ts';

type Others = (number: string) => string | undefined;

export function resolveTarget(target: Target, from: LabelledStep | undefined, tree: Procedure, labels: Labels, others: Others): Resolved {
  switch (target.kind) {
    case 'step-id':
      return stepById(target.id, labels);
    case 'steps-id':
      return range(stepById(target.from, labels), stepById(target.to, labels));
    case 'typed-step':
    case 'typed-steps': {
      const named = target.section === undefined ? undefined : sectionByTitle(target.section, tree);
      if (target.section !== undefined && !named) return deadSection(target.section, tree);
      const scope = { step: from, section: named ?? from?.section, only: named !== undefined };
      if (target.kind === 'typed-step') return resolveTyped(target.label, scope, labels);
      return typedRange(target.from, target.to, scope, labels);
    }
    case 'section':
      return resolveSection(target, tree, others);
    case 'document':
      return document(target.number, others);
  }
}

export function resolveReference(
  form: ReferenceForm,
  from: LabelledStep | undefined,
  tree: Procedure,
  labels: Labels,
  others: Others,
): Resolved {
  switch (form.kind) {
    case 'step':
      return stepById(form.id, labels);
    case 'steps':
      return range(stepById(form.from, labels), stepById(form.to, labels));
    case 'section':
      return resolveSection(form, tree, others);
    case 'table':
    case 'figure':
      return thingById(form.kind, form.id, from, tree);
    case 'name':
      return resolveName(form.name, tree, others);
    default:
      return { kind: 'dead', why: 'it names no place.' };
  }
}

function stepById(id: string, labels: Labels): Resolved {
  const step = labels.byId.get(id);
  if (step) return { kind: 'step', step };
  const near = nearest(id, [...labels.byId.keys()]);
  return { kind: 'dead', why: `no step of this procedure has the id "${id}".`, ...(near === undefined ? {} : { nearest: `#${near}` }) };
}

/** Both ends in one section and in order; a range over a heading would pass what stands between unseen. */
export function range(from: Resolved, to: Resolved): Resolved {
  if (from.kind !== 'step') return from;
  if (to.kind !== 'step') return to;
  const [a, b] = [from.step, to.step];
  if (a.section !== b.section) {
    return {
      kind: 'dead',
      why: `step ${a.fullLabel} stands in "${a.section.title}" and step ${b.fullLabel} in "${b.section.title}"; a range stays in one section.`,
    };
  }
  if (a.order > b.order) {
    return { kind: 'dead', why: `step ${a.label} comes after step ${b.label}.`, nearest: `${b.label} to ${a.label}` };
  }
  return { kind: 'range', from: a, to: b };
}

export interface Scope {
  readonly step?: LabelledStep | undefined;
  readonly section?: Section | undefined;
  /** The section was named, so no other is looked at. */
  readonly only?: boolean;
}

/** A typed label means the step of its own section first, then a substep beside it, then the only one in the file. */
export function resolveTyped(label: string, scope: Scope, labels: Labels): Resolved {
  const same = labels.steps.filter((step) => sameLabel(step.label, label));
  const here = same.filter((step) => step.section === scope.section);
  if (here[0]) return { kind: 'step', step: here[0] };
  const beside = besides(label, scope.step, labels);
  if (beside) return { kind: 'step', step: beside };
  if (!scope.only) {
    if (same.length === 1 && same[0]) return { kind: 'step', step: same[0] };
    if (same.length > 1) return { kind: 'ambiguous', candidates: same };
  }
  return dead(label, scope, labels);
}

/** "step b" said inside step 4 is 4b. */
function besides(label: string, from: LabelledStep | undefined, labels: Labels): LabelledStep | undefined {
  for (let above: LabelledStep | undefined = from; above; above = above.parent) {
    const own = above;
    const found = labels.steps.find(
      (step) => step.parent === own && (sameLabel(step.label, own.label + label) || sameLabel(step.label, `${own.label}.${label}`)),
    );
    if (found) return found;
  }
  return undefined;
}

function dead(label: string, scope: Scope, labels: Labels): Resolved {
  const where = scope.section;
  const why = where ? `"${where.title}" has no step ${label}.` : `this procedure has no step ${label}.`;
  const pool = where ? labels.steps.filter((step) => step.section === where) : labels.steps;
  const near = nearestStep(label, pool);
  return { kind: 'dead', why, ...(near ? { nearest: `step ${near.label}` } : {}) };
}

/** The step at the same place under another style (3.2 for 3b), else the closest in counting. */
function nearestStep(label: string, pool: readonly LabelledStep[]): LabelledStep | undefined {
  const path = labelPath(label);
  if (!path) return pool[0];
  const key = path.join('.');
  const exact = pool.find((step) => step.path.join('.') === key);
  if (exact) return exact;
  let best: LabelledStep | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const step of pool) {
    const away = Math.abs((step.path[0] ?? 0) - (path[0] ?? 0)) * 100 + Math.abs((step.path[1] ?? 0) - (path[1] ?? 0));
    if (away < least) [best, least] = [step, away];
  }
  return best;
}

export function typedRange(from: string, to: string, scope: Scope, labels: Labels): Resolved {
  const start = resolveTyped(from, scope, labels);
  const inside = start.kind === 'step' ? { step: start.step, section: start.step.section, only: true } : scope;
  const end = resolveTyped(to, inside, labels);
  if (end.kind === 'dead' && start.kind === 'step' && start.step.parent) {
    // "steps 4a to c": the second end leaves the parent unsaid.
    const short = besides(to, start.step.parent, labels);
    if (short) return range(start, { kind: 'step', step: short });
  }
  return range(start, end);
}

// ---------------------------------------------------------------- sections, tables, documents

function sectionByTitle(title: string, tree: Procedure): Section | undefined {
  const folded = foldText(title);
  return tree.sections.find((section) => foldText(section.title) === folded);
}

function deadSection(title: string, tree: Procedure): Resolved {
  const near = nearest(
    title,
    tree.sections.map((section) => section.title),
  );
  return {
    kind: 'dead',
    why: `no section of this procedure is called "${title}".`,
    ...(near === undefined ? {} : { nearest: `[section ${near}]` }),
  };
}

function resolveSection(
  form: { readonly title?: string; readonly id?: string; readonly document?: string },
  tree: Procedure,
  others: Others,
): Resolved {
  if (form.document !== undefined) return document(form.document, others);
  if (form.id !== undefined) {
    const id = form.id;
    const section = tree.sections.find((one) => one.id === id);
    if (section) return { kind: 'section', section };
    const near = nearest(
      id,
      tree.sections.map((one) => one.id),
    );
    return {
      kind: 'dead',
      why: `no section of this procedure has the id "${id}".`,
      ...(near === undefined ? {} : { nearest: `#${near}` }),
    };
  }
  const section = sectionByTitle(form.title ?? '', tree);
  return section ? { kind: 'section', section } : deadSection(form.title ?? '', tree);
}

function document(number: string, others: Others): Resolved {
  if (others(number) !== undefined) return { kind: 'document', number };
  return { kind: 'dead', why: `no procedure of this library has the number "${number}".` };
}

/** A whole-content look-up that turns out to be a place: a section's title, a document, or a keyword whose id is missing. */
function resolveName(name: string, tree: Procedure, others: Others): Resolved {
  const section = sectionByTitle(name, tree);
  if (section) return { kind: 'section', section };
  if (others(name) !== undefined) return { kind: 'document', number: name };
  const meant = /^section\s+(.+)$/i.exec(name)?.[1];
  if (meant !== undefined) return deadSection(meant, tree);
  return { kind: 'dead', why: `"${name}" is no section and no procedure.` };
}

/** Tables and figures have no labels; what matters is that they exist. They resolve to the section they stand in. */
function thingById(kind: 'table' | 'figure', id: string, _from: LabelledStep | undefined, tree: Procedure): Resolved {
  for (const section of tree.sections) if (idsOf(section.blocks, kind).includes(id)) return { kind: 'section', section };
  const all = tree.sections.flatMap((section) => idsOf(section.blocks, kind));
  if (idsOf(tree.preface, kind).includes(id) && tree.sections[0]) return { kind: 'section', section: tree.sections[0] };
  const near = nearest(id, all);
  return {
    kind: 'dead',
    why: `no ${kind} of this procedure has the id "${id}".`,
    ...(near === undefined ? {} : { nearest: `[${kind} #${near}]` }),
  };
}

/** Ids of tables or figures anywhere below. The tree is plain data, so one walk serves all its kinds. */
function idsOf(value: unknown, kind: 'table' | 'figure'): string[] {
  if (Array.isArray(value)) return value.flatMap((item) => idsOf(item, kind));
  if (value === null || typeof value !== 'object') return [];
  const node = value as { readonly kind?: string; readonly id?: string };
  const own = node.kind === kind && node.id !== undefined ? [node.id] : [];
  if (node.kind === kind) return own;
  return Object.values(node).flatMap((field) => (typeof field === 'object' ? idsOf(field, kind) : []));
}

/** Nearest of a few names by shared letters; undefined when nothing is near. */
function nearest(name: string, candidates: readonly string[]): string | undefined {
  const folded = foldText(name);
  let best: string | undefined;
  let least = Math.max(2, Math.floor(folded.length / 2));
  for (const candidate of candidates) {
    const away = editDistance(folded.slice(0, 60), foldText(candidate).slice(0, 60));
    if (away < least) [best, least] = [candidate, away];
  }
  return best;
}

function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      next.push(Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1)));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}
