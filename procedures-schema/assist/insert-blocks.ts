/** Puts in what belongs to a step or stands between steps: a notice, a figure, a step, branches on what a measurement shows. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { SignalWord } from '../format/index.ts';
import { insertAfter } from '../numbering/index.ts';
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

/** A figure under the step of the caret, or in the section where there is no step. */
export function insertFigure(
  facts: ProcedureFacts,
  library: LibraryFacts,
  offset: number,
  input: { readonly path: string; readonly alt: string; readonly id?: string },
): Insertion {
  const { text } = facts.source;
  const section = sectionAt(facts, offset);
  if (!section) return { ok: false, reason: 'A figure stands in a section.' };
  if (/[()\s]/.test(input.path)) return { ok: false, reason: 'The path of a figure holds no spaces and no brackets.' };
  const id = input.id ?? freeId(facts, (/([^/]+)\.[a-z0-9]+$/i.exec(input.path)?.[1] ?? 'figure').toLowerCase());
  if (!/^[a-z][a-z0-9-]*$/.test(id)) return { ok: false, reason: `"${id}" is no id: small letters, digits and hyphens.` };
  if (freeId(facts, id) !== id) return { ok: false, reason: `This procedure has the id "${id}" already.` };
  const at = stepAt(facts, offset);
  const step = at && at.section === section ? at.step : undefined;
  const pad = step ? insideOf(text, step) : '';
  const start = step ? endOfContent(text, step.span.start, step.span.end) : endOfContent(text, section.span.start, section.span.end);
  const line = `![${input.alt.replace(/[[\]]/g, '')}](${input.path}){#${id}}`;
  const rest = /^\r?\n\r?\n/.test(text.slice(start)) || text.slice(start).trim() === '' ? '' : '\n';
  const main = { file: facts.file, start, end: start, text: `\n\n${pad}${line}${rest}` };
  const notes = [
    ...(input.alt.trim() === '' ? ['Say what the figure shows: it is printed under it, and read aloud.'] : []),
    ...(library.paths.has(input.path) ? [] : [`The library has no file ${input.path} yet.`]),
  ];
  return insertionOf('Insert a figure', [main], main, 2 + pad.length + 2, library, notes);
}

/** An id that is still free, made from a word. */
export function freeId(facts: ProcedureFacts, word: string): string {
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
    if (!used.has(id)) return id;
  }
}

/** A step after the one of the caret, at its depth; later labels and the references to them are set right. */
export function insertStep(facts: ProcedureFacts, library: LibraryFacts, offset: number, lines: readonly string[]): Insertion {
  const at = stepAt(facts, offset);
  const section = sectionAt(facts, offset);
  if (!section || section.prose) return { ok: false, reason: 'A step stands in a section that is no section of prose.' };
  if (!at || at.section !== section) {
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

/** What is right goes on; what is not stops, until the writer says better. */
export function branchLines(sensed: boolean): readonly string[] {
  return sensed
    ? ['- If it passes, go on with the next step.', '- If it fails, stop and call for help.']
    : ['- If it is within the limits, go on with the next step.', '- If it is under or over the limits, stop and call for help.'];
}
