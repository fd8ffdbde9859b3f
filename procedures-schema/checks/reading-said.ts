/** A reading said outright carries its reason and initials and still belongs to its words: F14. What may be said is the reader's. */
import { saidOutright, sentenceKey } from '../reading/index.ts';
import type { ProcedureCheck } from './check.ts';

const AMISS = {
  reason: { said: 'gives no reason', expected: 'because="..." with what makes this reading right' },
  initials: { said: 'is not signed', expected: 'by= with the initials of whoever vouches for it, one to six letters' },
  unbound: { said: 'is not bound to its words, so that a later change of them would go unseen', expected: undefined },
  stale: { said: 'was said of other words', expected: undefined },
} as const;

export const readingSaid: ProcedureCheck = {
  id: 'reading-said',
  scope: 'procedure',
  severity: 'error',
  question: 'Does every reading said outright have a reason, initials, and the words it was said of?',
  why: 'A reading that somebody vouches for overrides what the program reads. When the words change and nobody looks again, the proof rests on a step that is no longer there. Until this is put right the step is read as it stands.',
  source: 'format rule F14',
  cases: [
    { name: 'signed and bound', finds: 0, work: '#. {reads=nothing because="a greeting" by=AB of=1qsq5w9} Blorf the [scraper].' },
    {
      name: 'neither reason nor initials',
      finds: 2,
      work: '#. {reads=nothing of=1qsq5w9} Blorf the [scraper].\n    ^^^^^^^^^^^^^',
    },
    { name: 'never bound', finds: 1, work: '#. {reads=nothing because="a greeting" by=AB} Blorf the [scraper].' },
    { name: 'the words changed', finds: 1, work: '#. {reads=nothing because="a greeting" by=AB of=1qsq5w9} Blorf the [start button].' },
  ],
  *run({ file, read, source }) {
    for (const { step, fullLabel } of read.labels.steps) {
      const said = saidOutright(step.attributes, step.lead.text);
      if (!said) continue;
      const key = sentenceKey(step.lead.text);
      for (const kind of said.amiss) {
        const { said: what, expected } = AMISS[kind];
        yield {
          file,
          span: said.span,
          message: `The reading said outright of step ${fullLabel} ${what}.`,
          actual: source.text.slice(step.attributes?.span.start, step.attributes?.span.end),
          expected: expected ?? `the step read again by a person, then of=${key}`,
          // A stale one has no fix by a click: somebody must read the new words first.
          ...(kind === 'unbound'
            ? {
                fix: {
                  title: 'Bind it to the words as they stand',
                  edits: [{ file, start: said.span.end, end: said.span.end, text: ` of=${key}` }],
                },
              }
            : {}),
          steps: [fullLabel],
        };
      }
    }
  },
};
