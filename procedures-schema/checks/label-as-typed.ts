/** Typed labels against the computed ones. */
import type { TextEdit } from '../finding.ts';
import type { Step } from '../format/index.ts';
import { type LabelledStep, renumber } from '../numbering/index.ts';
import type { ProcedureCheck } from './check.ts';

export const labelAsTyped: ProcedureCheck = {
  id: 'label-as-typed',
  scope: 'procedure',
  severity: 'error',
  question: 'Does every step carry the number its place gives it?',
  why: 'The page prints the computed number. Where the text says another, every reference the writer had in mind is off.',
  source: 'format rule F7; IEC/IEEE 82079-1 (from memory): number steps in order of doing',
  cases: [
    { name: 'a number left out', finds: 1, work: '1. Clean the [scraper].\n3. Read the [air gauge].\n^^' },
    { name: 'a number twice', finds: 1, work: '1. Clean the [scraper].\n1. Read the [air gauge].\n^^' },
    {
      name: 'all ones, which Markdown counts by itself',
      finds: 0,
      work: '1. Clean the [scraper].\n1. Read the [air gauge].\n1. Look at the [scraper].',
    },
    { name: 'in order', finds: 0, work: '1. Clean the [scraper].\n2. Read the [air gauge].' },
  ],
  *run({ file, tree, read }, { registers }) {
    const style = registers.house.numbering;
    // Made when the first slip is met: nearly every edit leaves the numbers right.
    let fix: { readonly title: string; readonly edits: readonly TextEdit[] } | undefined;
    let before = '';
    const counted = leftToMarkdown(read.labels.steps);
    for (const { step, label, fullLabel, section } of read.labels.steps) {
      const { typed } = step;
      if (counted.has(step)) continue;
      const last = typed.ordinal;
      const expected = Number(/\d+$/.exec(String(read.labels.byStep.get(step)?.path.at(-1) ?? ''))?.[0] ?? Number.NaN);
      if (last !== undefined && typed.style !== 'bullet' && last !== expected) {
        // One slip moves all the labels after it: only the first of a run is told.
        const run = `${section.id}:${last - expected}:${read.labels.byStep.get(step)?.path.slice(0, -1).join('.')}`;
        if (run !== before) {
          fix ??= { title: 'Renumber this procedure', edits: renumber(tree, style) };
          yield {
            file,
            span: typed.span,
            message: `This step is labelled "${typed.raw.trim()}" but its place makes it ${label}.`,
            actual: typed.raw.trim(),
            expected: label,
            steps: [fullLabel],
            ...(fix.edits.length > 0 ? { fix } : {}),
          };
        }
        before = run;
      } else if (last !== undefined) before = '';
    }
  },
};

/** Lists of three and more whose every item is typed "1.": the writer leaves the counting to Markdown. */
function leftToMarkdown(steps: readonly LabelledStep[]): ReadonlySet<Step> {
  const lists = new Map<unknown, LabelledStep[]>();
  for (const one of steps) {
    const list = one.parent === undefined ? one.section : `${one.parent.order}:${one.branch ?? ''}`;
    lists.set(list, [...(lists.get(list) ?? []), one]);
  }
  const all = [...lists.values()].filter((list) => list.length > 2 && list.every(({ step }) => /^1[.)]$/.test(step.typed.raw.trim())));
  return new Set(all.flatMap((list) => list.map(({ step }) => step)));
}
