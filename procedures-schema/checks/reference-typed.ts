/** Step numbers typed as plain text: right today, wrong after the next edit. */
import type { ProcedureCheck } from './check.ts';

export const referenceTyped: ProcedureCheck = {
  id: 'reference-typed',
  scope: 'procedure',
  severity: 'advice',
  question: 'Are references to steps live rather than typed?',
  why: 'A typed number is right until somebody inserts a step before it.',
  source: 'design: "repeat steps 4 to 7" is still right after every edit',
  cases: [
    {
      name: 'a typed number',
      finds: 1,
      work: '#. Clean the [scraper].\n#. Look at the [scraper]. If the edge is dirty, go to step 1.\n                                                      ^^^^^^',
    },
    {
      name: 'a live reference',
      finds: 0,
      work: '#. {#clean} Clean the [scraper].\n#. Look at the [scraper]. If the edge is dirty, go to [step #clean].',
    },
  ],
  *run({ file, references }) {
    for (const { span, text, resolved } of references)
      if (resolved.kind === 'step' || resolved.kind === 'range') {
        const id = resolved.kind === 'step' ? resolved.step.step.id : undefined;
        yield {
          file,
          span,
          message: `"${text}" is typed; a live reference keeps up with edits.`,
          actual: text,
          expected: id ? `[step #${id}]` : 'an id on that step, and a reference to it',
          ...(id
            ? { fix: { title: `Write [step #${id}]`, edits: [{ file, start: span.start, end: span.end, text: `[step #${id}]` }] } }
            : {}),
        };
      }
  },
};
