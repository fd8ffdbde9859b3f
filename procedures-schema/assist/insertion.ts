/** What an insertion gives: edits with a preview, where the caret goes, and what is left to the writer. Helpers to find its place in the text. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { TextEdit } from '../finding.ts';
import type { Section, Step } from '../format/index.ts';
import type { LabelledStep } from '../numbering/index.ts';
import type { FilePreview } from './model.ts';
import { inLinesOf, proposalOf, textsOf } from './proposals.ts';

export type Insertion =
  | {
      readonly ok: true;
      readonly title: string;
      readonly files: readonly FilePreview[];
      /** Where the caret goes, in the procedure's text after the edits. */
      readonly caret: number;
      /** What is left to the writer, as sentences. */
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly reason: string };

/** `main` is the edit that the caret goes into, at `inside` characters from its start. */
export function insertionOf(
  title: string,
  edits: readonly TextEdit[],
  main: TextEdit,
  inside: number,
  library: LibraryFacts,
  notes: readonly string[] = [],
): Insertion {
  const texts = textsOf(library);
  const proposal = proposalOf(title, edits, texts);
  if (!proposal.ok) return proposal;
  const grown = (edit: TextEdit): number => inLinesOf(texts.get(edit.file), edit).text.length - (edit.end - edit.start);
  const before = edits.filter((edit) => edit !== main && edit.file === main.file && edit.start <= main.start);
  const head = inLinesOf(texts.get(main.file), { ...main, text: main.text.slice(0, inside) }).text.length;
  return { ok: true, title, files: proposal.files, caret: main.start + before.reduce((sum, edit) => sum + grown(edit), 0) + head, notes };
}

export function sectionAt(facts: ProcedureFacts, offset: number): Section | undefined {
  return facts.tree.sections.findLast((section) => section.span.start <= offset);
}

/** The innermost step that the offset stands in, or the last one of its section before it. */
export function stepAt(facts: ProcedureFacts, offset: number): LabelledStep | undefined {
  const holding = facts.read.labels.steps.filter(({ step }) => step.span.start <= offset && offset <= step.span.end);
  if (holding.length > 0) return holding.at(-1);
  const section = sectionAt(facts, offset);
  return facts.read.labels.steps.findLast((at) => at.section === section && at.path.length === 1 && at.step.span.end <= offset);
}

export const lineStart = (text: string, offset: number): number => text.lastIndexOf('\n', offset - 1) + 1;

/** Spaces under which what belongs to a step stands. */
export function insideOf(text: string, step: Step): string {
  const start = lineStart(text, step.span.start);
  const label = text.slice(start, step.span.start).replace(/\S/g, ' ');
  const { typed } = step;
  const width = (typed.marker ? typed.marker.raw.length + 1 : 0) + typed.raw.length + 1;
  return label + ' '.repeat(Math.max(3, width));
}

/** After the last thing of a stretch and the `{#id}` that names it, trailing empty lines left behind. */
export function endOfContent(text: string, start: number, end: number): number {
  const own = start + text.slice(start, end).trimEnd().length;
  const id = /^\s*\n[ \t]*\{#[^}\n]*\}(?=[ \t]*(\r?\n|$))/.exec(text.slice(own, own + 400));
  return own + (id?.[0].length ?? 0);
}

/** A section put before another one, or at the end of the file. */
export function newSection(facts: ProcedureFacts, before: Section | undefined, title: string, body: string): TextEdit {
  const { text } = facts.source;
  const heading = `## ${title}\n\n${body.trimEnd()}\n`;
  if (before) {
    const at = lineStart(text, before.span.start);
    return { file: facts.file, start: at, end: at, text: `${heading}\n` };
  }
  const at = text.trimEnd().length;
  return { file: facts.file, start: at, end: text.length, text: `${at === 0 ? '' : '\n\n'}${heading}` };
}

export const numbered = (lines: readonly string[]): string => lines.map((line, index) => `${index + 1}. ${line}`).join('\n');
