/** Puts several steps in at several places of a file at once, with one renumbering; every reference still means the step it meant. */
import type { TextEdit } from '../finding.ts';
import { type Procedure, type Step, type WalkedStep, walkSteps } from '../format/index.ts';
import type { NumberingStyle } from '../registers/index.ts';
import { labelSequence, labelsOf } from './labels.ts';
import { NO_HEIRS, Renumbering, sorted, startOfLine } from './renumbering.ts';
import { rewritten } from './typed-label-text.ts';

export interface NewSteps {
  /** A step of the outermost list of its section. */
  readonly beside: Step;
  readonly where: 'before' | 'after';
  /** Sentences, one a step, without a label. */
  readonly texts: readonly string[];
}

export function insertSteps(tree: Procedure, puts: readonly NewSteps[], style: NumberingStyle): readonly TextEdit[] {
  const walk = [...walkSteps(tree)];
  const added = puts.map((put) => put.texts.map((text) => ({ text, step: { ...put.beside, children: [] } as Step })));
  const after = labelSequence(withAdded(walk, puts, added), tree.sections, style);
  const edits = new Renumbering(tree, labelsOf(tree, style), after, NO_HEIRS).edits();
  const { text, path } = tree.source;
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  const put = puts.map(({ beside, where }, index): TextEdit => {
    const lines = (added[index] ?? []).map((one) => {
      const margin = text.slice(startOfLine(text, beside.span.start), beside.span.start).replace(/\S/g, ' ');
      const ordinal = after.byStep.get(one.step)?.path.at(-1) ?? 1;
      const { typed } = beside;
      const marker = typed.marker
        ? `${rewritten(typed.marker.raw, typed.marker.ordinal === undefined ? 'bullet' : 'number', ordinal)} `
        : '';
      return `${margin}${marker}${rewritten(typed.raw, typed.style, ordinal, typed.parents ?? [])} ${one.text}`;
    });
    // A notice before a step stays with it, so new steps go behind the step before where there is one.
    const previous = where === 'before' ? stepBefore(walk, beside) : beside;
    if (previous) {
      const at = endOfLine(text, previous.span.end);
      return { file: path, start: at, end: at, text: newline + lines.join(newline) };
    }
    const at = startOfLine(text, beside.span.start);
    return { file: path, start: at, end: at, text: lines.join(newline) + newline };
  });
  return sorted([...edits, ...put]);
}

function stepBefore(walk: readonly WalkedStep[], step: Step): Step | undefined {
  const own = walk.find((one) => one.step === step);
  const top = walk.filter((one) => one.section === own?.section && one.parent === undefined);
  return top[top.findIndex((one) => one.step === step) - 1]?.step;
}

function* withAdded(
  walk: readonly WalkedStep[],
  puts: readonly NewSteps[],
  added: readonly (readonly { readonly step: Step }[])[],
): Generator<WalkedStep> {
  const waiting: WalkedStep[] = [];
  for (const walked of walk) {
    if (walked.parent === undefined) yield* waiting.splice(0);
    for (const [index, { beside, where }] of puts.entries()) {
      if (beside !== walked.step) continue;
      const own = (added[index] ?? []).map(({ step }) => ({ ...walked, step }));
      if (where === 'before') yield* own;
      else waiting.push(...own);
    }
    yield walked;
  }
  yield* waiting;
}

function endOfLine(text: string, at: number): number {
  let end = at;
  while (end > 0 && (text[end - 1] === '\n' || text[end - 1] === '\r')) end -= 1;
  while (end < text.length && text[end] !== '\n' && text[end] !== '\r') end += 1;
  return end;
}
