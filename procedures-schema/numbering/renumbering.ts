/** The edits that carry a file from one set of labels to another: typed labels, typed references, indents. What changes is renumber.ts. */
import type { TextEdit } from '../finding.ts';
import { type Procedure, type Prose, proseSpan, type Section, type Step } from '../format/index.ts';
import { eachProse } from './each-prose.ts';
import { letters, sameLabel } from './label-text.ts';
import type { LabelledStep, Labels, Resolved } from './model.ts';
import { resolveTyped, type Scope } from './resolve.ts';
import { rewritten } from './typed-label-text.ts';
import { findTypedWords, type TypedWord, type TypedWords } from './typed-words.ts';

/** Who stands in for a step that goes: as the start of a reference, and as the end of a range. Itself if it stays. */
export interface Heirs {
  readonly start: (step: Step) => Step | undefined;
  readonly end: (step: Step) => Step | undefined;
}

export const NO_HEIRS: Heirs = { start: (step) => step, end: (step) => step };

export class Renumbering {
  readonly #tree: Procedure;
  readonly #before: Labels;
  readonly #after: Labels;
  readonly #heirs: Heirs;
  readonly #typed: ReadonlyMap<LabelledStep, string>;

  constructor(tree: Procedure, before: Labels, after: Labels, heirs: Heirs) {
    this.#tree = tree;
    this.#before = before;
    this.#after = after;
    this.#heirs = heirs;
    this.#typed = typedTexts(before);
  }

  edits(): TextEdit[] {
    return sorted([...this.#labels(), ...this.#references()]);
  }

  #edit(start: number, end: number, text: string): TextEdit {
    return { file: this.#tree.source.path, start, end, text };
  }

  // ------------------------------------------------------------ labels

  #labels(): TextEdit[] {
    const edits: TextEdit[] = [];
    const indents = new Map<number, number>();
    for (const after of this.#after.steps) {
      const before = this.#before.byStep.get(after.step);
      if (!before) continue; // put in just now; whoever does that writes its label
      const { typed } = after.step;
      const ordinal = this.#ordinal(before, after);
      const text = rewritten(typed.raw, typed.style, ordinal, parentsFor(after));
      if (text !== typed.raw) edits.push(this.#edit(typed.span.start, typed.span.end, text));
      const { marker } = typed;
      const outer = marker?.ordinal === undefined ? undefined : rewritten(marker.raw, 'number', ordinal);
      if (marker && outer !== undefined && outer !== marker.raw) edits.push(this.#edit(marker.span.start, marker.span.end, outer));
      const wider = marker
        ? (outer ?? marker.raw).length - marker.raw.length
        : typed.style === 'number'
          ? text.length - typed.raw.length
          : 0;
      if (wider > 0) this.#indent(after.step, wider, indents);
    }
    for (const [at, spaces] of indents) edits.push(this.#edit(at, at, ' '.repeat(spaces)));
    return edits;
  }

  /** Inside branch bullets a writer may count from one in each; that habit is kept. */
  #ordinal(before: LabelledStep, after: LabelledStep): number {
    const last = after.path.at(-1) ?? 1;
    const habit = before.restart !== undefined && before.step.typed.ordinal === before.restart && before.restart !== before.path.at(-1);
    return habit ? (after.restart ?? last) : last;
  }

  /** "9." grown to "10." moves the text of its item by one; what hangs on it moves along. */
  #indent(step: Step, by: number, indents: Map<number, number>): void {
    const { text, lineStarts } = this.#tree.source;
    const margin = step.span.start - startOfLine(text, step.span.start);
    for (const start of linesWithin(lineStarts, step.span.start, step.span.end)) {
      const blanks = /^[ \t]*/.exec(text.slice(start, start + 200))?.[0].length ?? 0;
      const empty = /^[ \t]*[\r\n]/.test(text.slice(start, start + 200));
      if (!empty && blanks >= margin + 2) indents.set(start, (indents.get(start) ?? 0) + by);
    }
  }

  // ------------------------------------------------------------ references

  #references(): TextEdit[] {
    const edits: TextEdit[] = [];
    for (const { prose, section, step } of eachProse(this.#tree)) {
      if (step && !this.#after.byStep.has(step)) continue; // goes with its step
      for (const words of findTypedWords(prose, this.#tree.sections)) edits.push(...this.#reference(prose, words, section, step));
    }
    return edits;
  }

  #reference(prose: Prose, words: TypedWords, section: Section | undefined, step: Step | undefined): TextEdit[] {
    const only = words.section !== undefined;
    const scope = (labels: Labels): Scope => ({
      step: only || !step ? undefined : labels.byStep.get(step),
      section: words.section ?? section,
      only,
    });
    const from = this.#meant(words.from.label, scope(this.#before));
    const heir = from ? this.#heirs.start(from.step) : undefined;
    const target = heir ? this.#after.byStep.get(heir) : undefined;
    if (!from || !target) return [];
    if (!words.to) return this.#one(prose, words, from, target, scope(this.#after));

    const inside: Scope = { step: from, section: from.section, only: true };
    const to =
      this.#meant(words.to.label, inside) ?? (from.parent ? this.#meant(words.to.label, { ...inside, step: from.parent }) : undefined);
    if (!to) return [];
    const last = this.#heirs.end(to.step);
    const end = last ? this.#after.byStep.get(last) : undefined;
    if (!end) return [];
    if (end.order <= target.order && from !== to) {
      // Only one step of the range is left.
      const plural = /^(steps?)/i.exec(prose.text.slice(words.at, words.end));
      if (plural) {
        const word = (plural[1] ?? '').startsWith('S') ? 'Step' : 'step';
        return this.#replace(
          prose,
          words.at,
          words.end,
          `${word} ${this.#text(target, from, words.from.label)}${this.#suffix(words, target, scope(this.#after))}`,
        );
      }
      return this.#replace(prose, words.at, words.end, this.#text(target, from, words.from.label));
    }
    return [
      ...this.#word(prose, words.from, this.#text(target, from, words.from.label)),
      ...this.#word(prose, words.to, this.#text(end, to, words.to.label) + this.#suffix(words, target, scope(this.#after))),
    ];
  }

  #one(prose: Prose, words: TypedWords, from: LabelledStep, target: LabelledStep, scope: Scope): TextEdit[] {
    return this.#word(prose, words.from, this.#text(target, from, words.from.label) + this.#suffix(words, target, scope));
  }

  /** The step a typed label means. Where typed labels are off, the writer meant what was typed. */
  #meant(label: string, scope: Scope): LabelledStep | undefined {
    const typed = this.#before.steps.filter((step) => step.section === scope.section && sameLabel(this.#typed.get(step) ?? '', label));
    if (typed.length === 1 && typed[0]) return typed[0];
    const resolved: Resolved = resolveTyped(label, scope, this.#before);
    return resolved.kind === 'step' ? resolved.step : undefined;
  }

  /** The label to write: whole, or only its last part where only that was typed. */
  #text(target: LabelledStep, before: LabelledStep, typed: string): string {
    const whole = sameLabel(typed, before.label) || sameLabel(typed, this.#typed.get(before) ?? '') || !before.parent;
    const parent = target.parent?.label ?? '';
    const text = whole ? target.label : target.label.slice(parent.length).replace(/^\./, '');
    return typed === typed.toLowerCase() && /^[A-Z]+$/.test(text) ? text.toLowerCase() : text;
  }

  /** The section's name, where the bare label would now lead elsewhere. */
  #suffix(words: TypedWords, target: LabelledStep, scope: Scope): string {
    if (words.section) return '';
    const resolved = resolveTyped(target.label, scope, this.#after);
    return resolved.kind === 'step' && resolved.step === target ? '' : ` of ${target.section.title}`;
  }

  #word(prose: Prose, word: TypedWord, text: string): TextEdit[] {
    return text === word.label ? [] : this.#replace(prose, word.at, word.end, text);
  }

  #replace(prose: Prose, at: number, end: number, text: string): TextEdit[] {
    const span = proseSpan(prose, at, end);
    return [this.#edit(span.start, span.end, text)];
  }
}

/** The ordinals before the last one in a decimal label: of the section where steps are counted so, else of the steps above. */
function parentsFor(step: LabelledStep): readonly number[] {
  const typed = step.step.typed.parents ?? [];
  if (step.path.length - 1 === typed.length) return step.path.slice(0, -1);
  const parts = step.label.split('.').map(Number);
  if (parts.length - 1 === typed.length && parts.every((part) => part > 0)) return parts.slice(0, -1);
  return typed;
}

/** Each step's label as its typed ones say it, substeps with their parents: "4b". */
function typedTexts(labels: Labels): Map<LabelledStep, string> {
  const texts = new Map<LabelledStep, string>();
  for (const step of labels.steps) {
    const { typed } = step.step;
    if (typed.ordinal === undefined) continue;
    if (typed.parents) {
      texts.set(step, [...typed.parents, typed.ordinal].join('.'));
      continue;
    }
    const own =
      typed.style === 'letter' || typed.style === 'roman'
        ? letters(typed.ordinal)
        : typed.style === 'capital'
          ? letters(typed.ordinal).toUpperCase()
          : String(typed.ordinal);
    const above = step.parent ? texts.get(step.parent) : '';
    if (above === undefined) continue;
    texts.set(step, /\d$/.test(above) && /^\d/.test(own) ? `${above}.${own}` : above + own);
  }
  return texts;
}

export function startOfLine(text: string, at: number): number {
  // Letter by letter: a search for a carriage return would run to the top of every file that has none.
  let start = at;
  while (start > 0 && text[start - 1] !== '\n' && text[start - 1] !== '\r') start -= 1;
  return start;
}

/** Starts of the lines after the first that begin inside [start, end). */
function linesWithin(lineStarts: readonly number[], start: number, end: number): number[] {
  let low = 0;
  let high = lineStarts.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((lineStarts[middle] ?? 0) <= start) low = middle + 1;
    else high = middle;
  }
  const out: number[] = [];
  for (let n = low; n < lineStarts.length && (lineStarts[n] ?? 0) < end; n++) out.push(lineStarts[n] ?? 0);
  return out;
}

export function sorted(edits: readonly TextEdit[]): TextEdit[] {
  return [...edits].sort((a, b) => a.start - b.start || a.end - b.end);
}
