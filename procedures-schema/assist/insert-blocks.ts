/** Puts in what belongs to a step or stands between steps: a notice, a figure, a step, branches on what a measurement shows. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { SignalWord } from '../format/index.ts';
import { insertAfter } from '../numbering/index.ts';
import { branchCondition } from '../reading/index.ts';
import { endOfContent, type Insertion, insertionOf, insideOf, lineStart, sectionAt, stepAt } from './insertion.ts';

export interface NoticeInput {
  readonly word: SignalWord;
  /** Name of a standing notice of the register; its words are then printed. */
  readonly use?: string;
  /** What endangers, what it does to people, how it is avoided: the parts that ANSI Z535.6 asks of a notice. */
  readonly hazard?: string;
  readonly harm?: string;
  readonly avoid?: string;
}

/** Between two steps a notice guards the next; under a heading the section. It goes before the step of the caret. */
export function insertNotice(facts: ProcedureFacts, library: LibraryFacts, offset: number, input: NoticeInput): Insertion {
  const { text } = facts.source;
  const section = sectionAt(facts, offset);
  if (!section || section.prose) return { ok: false, reason: 'A notice stands in a section with steps.' };
  const standing = input.use === undefined ? undefined : library.registers.notices.find(({ name }) => name === input.use);
  if (input.use !== undefined && !standing) return { ok: false, reason: `The register has no notice "${input.use}".` };
  const parts = [input.hazard, input.harm, input.avoid].map((part) => sentence(part ?? '')).filter((part) => part !== '');
  const words = standing?.text ?? parts.join(' ');
  const open = `:::${standing?.word ?? input.word}${standing ? ` {use="${standing.name}"}` : ''}\n`;
  const own = facts.read.labels.steps.find(({ step, path }) => path.length === 1 && step.span.start <= offset && offset <= step.span.end);
  const first = facts.read.labels.steps.find((at) => at.section === section);
  const on = own ?? (first && offset < first.step.span.start ? first : undefined);
  const block = `${open}${words === '' ? '' : `${words}\n`}:::\n`;
  const start = on ? lineStart(text, on.step.span.start) : endOfContent(text, section.span.start, section.span.end);
  const gap = on ? (/\n[ \t]*\r?\n$|^$/.test(text.slice(0, start)) ? '' : '\n') : '\n\n';
  const main = { file: facts.file, start, end: start, text: on ? `${gap}${block}\n` : `${gap}${block.trimEnd()}` };
  const missing = standing ? [] : (['hazard', 'harm', 'avoid'] as const).filter((part) => (input[part] ?? '').trim() === '');
  return insertionOf(
    `Insert a ${input.word} notice`,
    [main],
    main,
    gap.length + open.length,
    library,
    missing.map((part) => WANTED[part]),
  );
}

const WANTED = { hazard: 'Say what endangers.', harm: 'Say what it does to people.', avoid: 'Say how it is avoided.' } as const;

function sentence(text: string): string {
  const own = text.trim();
  return own === '' || /[.!?]$/.test(own) ? own : `${own}.`;
}

export interface FigureInput {
  readonly path: string;
  readonly alt: string;
  readonly id?: string;
}

/** A figure under the step of the caret, or in the section where there is no step. */
export function insertFigure(facts: ProcedureFacts, library: LibraryFacts, offset: number, input: FigureInput): Insertion {
  return insertFigures(facts, library, offset, [input]);
}

/** Several figures below one another, as one change. The caret goes into the first. */
export function insertFigures(facts: ProcedureFacts, library: LibraryFacts, offset: number, inputs: readonly FigureInput[]): Insertion {
  const { text } = facts.source;
  const section = sectionAt(facts, offset);
  if (!section) return { ok: false, reason: 'A figure stands in a section.' };
  if (inputs.length === 0) return { ok: false, reason: 'No figure was chosen.' };
  const at = stepAt(facts, offset);
  const step = at && at.section === section ? at.step : undefined;
  const pad = step ? insideOf(text, step) : '';
  const taken = new Set<string>();
  let body = '';
  for (const { path, alt, id: wanted } of inputs) {
    if (/[()\s]/.test(path)) return { ok: false, reason: 'The path of a figure holds no spaces and no brackets.' };
    const id = wanted ?? freeId(facts, (/([^/]+)\.[a-z0-9]+$/i.exec(path)?.[1] ?? 'figure').toLowerCase(), taken);
    if (!/^[a-z][a-z0-9-]*$/.test(id)) return { ok: false, reason: `"${id}" is no id: small letters, digits and hyphens.` };
    if (freeId(facts, id, taken) !== id) return { ok: false, reason: `This procedure has the id "${id}" already.` };
    taken.add(id);
    body += `\n\n${pad}![${alt.replace(/[[\]]/g, '')}](${path}){#${id}}`;
  }
  const start = step ? endOfContent(text, step.span.start, step.span.end) : endOfContent(text, section.span.start, section.span.end);
  const rest = /^\r?\n\r?\n/.test(text.slice(start)) || text.slice(start).trim() === '' ? '' : '\n';
  const main = { file: facts.file, start, end: start, text: `${body}${rest}` };
  const notes = [
    ...(inputs.some(({ alt }) => alt.trim() === '') ? ['Say what the figure shows: it is printed under it, and read aloud.'] : []),
    ...inputs.filter(({ path }) => !library.paths.has(path)).map(({ path }) => `The library has no file ${path} yet.`),
  ];
  const title = inputs.length === 1 ? 'Insert a figure' : `Insert ${inputs.length} figures`;
  return insertionOf(title, [main], main, 2 + pad.length + 2, library, notes);
}

/** An id that is still free, made from a word; `taken`: those that the same change gives. */
export function freeId(facts: ProcedureFacts, word: string, taken: ReadonlySet<string> = new Set()): string {
  const base = word
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^[^a-z]+|-+$/g, '');
  const used = new Set(
    [...facts.source.text.matchAll(/\{[^}\n]*#([a-z][a-z0-9-]*)/g)]
      .map((found) => found[1])
      .concat(facts.tree.sections.map(({ id }) => id)),
  );
  for (let n = 1; ; n++) {
    const id = n === 1 ? base || 'place' : `${base || 'place'}-${n}`;
    if (!used.has(id) && !taken.has(id)) return id;
  }
}

/** A step after the one of the caret, at its depth, or after the last one of its section; later labels and the references to them are set right. */
export function insertStep(facts: ProcedureFacts, library: LibraryFacts, offset: number, lines: readonly string[]): Insertion {
  const near = stepAt(facts, offset);
  const section = sectionAt(facts, offset);
  if (!section || section.prose) return { ok: false, reason: 'A step stands in a section that is no section of prose.' };
  const at = near?.section === section ? near : facts.read.labels.steps.findLast((one) => one.section === section && one.path.length === 1);
  if (!at) {
    const start = endOfContent(facts.source.text, section.span.start, section.span.end);
    const body = lines.map((line, index) => (index === 0 ? `1. ${line}` : line === '' ? '' : `   ${line}`)).join('\n');
    const main = { file: facts.file, start, end: start, text: `\n\n${body}` };
    return insertionOf('Insert a step', [main], main, 5, library);
  }
  const edits = insertAfter(facts.tree, at.step, lines, library.registers.house.numbering);
  const main = edits.find((edit) => edit.start === edit.end && edit.text.includes(lines[0] ?? ''));
  if (!main) return { ok: false, reason: 'No place was found for the step.' };
  return insertionOf('Insert a step', edits, main, main.text.indexOf(lines[0] ?? ''), library);
}

/** Branches under the step of the caret, one for each thing that the measurement may show. */
export function insertBranches(facts: ProcedureFacts, library: LibraryFacts, offset: number, name: string): Insertion {
  const at = stepAt(facts, offset);
  const measurement = facts.head.measurements.find((one) => one.name === name);
  if (!at) return { ok: false, reason: 'No step stands here to branch.' };
  if (!measurement) return { ok: false, reason: `The front matter has no measurement "${name}".` };
  const { text } = facts.source;
  const pad = insideOf(text, at.step);
  const start = endOfContent(text, at.step.span.start, at.step.span.end);
  const body = branchLines(measurement.sensed !== undefined)
    .map((line) => `\n${pad}${line}`)
    .join('');
  const main = { file: facts.file, start, end: start, text: body };
  return insertionOf('Insert branches', [main], main, body.length - 1, library, ['Say what is done when it is not right.']);
}

export interface Branch {
  /** "it is over the limit", with "If" or without. */
  readonly when: string;
  readonly does: string;
}

/** A step with its branches after the one of the caret; without words for a step, branches under the one that stands there. */
export function insertBranching(
  facts: ProcedureFacts,
  library: LibraryFacts,
  offset: number,
  input: { readonly step?: string; readonly branches: readonly Branch[] },
): Insertion {
  const branches = input.branches.filter(({ when, does }) => when.trim() !== '' || does.trim() !== '');
  if (branches.length === 0 || branches.some(({ when, does }) => when.trim() === '' || does.trim() === ''))
    return { ok: false, reason: 'A branch says when it is taken and what is done then.' };
  const lines = branches.map(branchLine);
  const notes = branches.length === 1 ? ['Say what is done when it is not so.'] : [];
  if (input.step !== undefined) {
    if (input.step.trim() === '') return { ok: false, reason: 'The step before the branches has no words.' };
    const made = insertStep(facts, library, offset, [sentence(input.step), ...lines]);
    return made.ok ? { ...made, title: 'Insert a step with branches', notes } : made;
  }
  const at = stepAt(facts, offset);
  if (!at || at.section !== sectionAt(facts, offset)) return { ok: false, reason: 'No step stands here to branch.' };
  const pad = insideOf(facts.source.text, at.step);
  const start = endOfContent(facts.source.text, at.step.span.start, at.step.span.end);
  const body = lines.map((line) => `\n${pad}${line}`).join('');
  const main = { file: facts.file, start, end: start, text: body };
  return insertionOf('Insert branches', [main], main, body.length - 1, library, notes);
}

const branchLine = ({ when, does }: Branch): string => `- ${branchCondition(when).replace(/[,.]$/, '')}, ${sentence(does)}`;

/** What is right goes on; what is not stops, until the writer says better. */
export function branchesOn(sensed: boolean): readonly Branch[] {
  const [right, wrong] = (sensed ? ['it passes', 'it fails'] : ['it is within the limits', 'it is under or over the limits']) as [
    string,
    string,
  ];
  return [
    { when: right, does: 'go on with the next step' },
    { when: wrong, does: 'stop and call for help' },
  ];
}

export const branchLines = (sensed: boolean): readonly string[] => branchesOn(sensed).map(branchLine);
