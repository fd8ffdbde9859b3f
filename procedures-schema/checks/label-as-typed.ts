/** Typed labels against the computed ones. */
import { renumber } from '../numbering/index.ts';
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
    { name: 'in order', finds: 0, work: '1. Clean the [scraper].\n2. Read the [air gauge].' },
  ],
  *run({ file, tree, read }, { registers }) {
    const style = registers.house.numbering;
    const edits = renumber(tree, style);
    const fix = { title: 'Renumber this procedure', edits };
    let before = '';
    for (const { step, label, fullLabel, section } of read.labels.steps) {
      const { typed } = step;
      const last = typed.ordinal;
      const expected = Number(/\d+$/.exec(String(read.labels.byStep.get(step)?.path.at(-1) ?? ''))?.[0] ?? Number.NaN);
      if (last !== undefined && typed.style !== 'bullet' && last !== expected) {
        // One slip moves all the labels after it: only the first of a run is told.
        const run = `${section.id}:${last - expected}:${read.labels.byStep.get(step)?.path.slice(0, -1).join('.')}`;
        if (run !== before)
          yield {
            file,
            span: typed.span,
            message: `This step is labelled "${typed.raw.trim()}" but its place makes it ${label}.`,
            actual: typed.raw.trim(),
            expected: label,
            steps: [fullLabel],
            ...(edits.length > 0 ? { fix } : {}),
          };
        before = run;
      } else if (last !== undefined) before = '';
    }
  },
};
