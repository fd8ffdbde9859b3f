/** Names that lead to two kinds of thing. */
import { proseSpan } from '../format/index.ts';
import type { ProcedureCheck } from './check.ts';
import { eachSentence, listed, proseOf } from './visit.ts';

export const namesAmbiguous: ProcedureCheck = {
  id: 'names-ambiguous',
  scope: 'procedure',
  severity: 'error',
  question: 'Does every name lead to one thing?',
  why: 'If the checker cannot tell which valve is meant, neither can the technician.',
  source: 'format rule F3; IEC/IEEE 82079-1 (from memory), consistency: one term for one thing',
  cases: [
    {
      name: 'a tool and a part of one name',
      finds: 1,
      files: { 'registers/tools.yaml': 'tools:\n  scraper: {kind: hand tool}\n' },
      work: '#. Clean the [scraper].\n             ^^^^^^^^^',
    },
    { name: 'one thing', finds: 0, work: '#. Clean the [scraper].' },
  ],
  *run({ file, names, tree, read }) {
    const said = new Set<number>();
    for (const prose of proseOf(tree))
      for (const mark of prose.marks) {
        if (mark.kind !== 'reference' || mark.form.kind !== 'name') continue;
        const things = names.lookup(mark.form.name);
        if (things.length < 2) continue;
        said.add(mark.span.start);
        yield {
          file,
          span: mark.span,
          message: `"${mark.form.name}" may be ${listed(
            things.map((thing) => `the ${thing.kind} ${thing.name}${thing.family ? ` of the ${thing.family}` : ''}`),
            'or',
          )}.`,
          actual: mark.form.name,
          expected: 'a name that only one of them has',
        };
      }
    for (const { sentence, prose } of eachSentence(read))
      for (const { text, things, at, end } of sentence.ambiguous) {
        const span = proseSpan(prose, at, end);
        if (said.has(span.start) || said.has(span.start - 1)) continue;
        yield {
          file,
          span,
          message: `"${text}" may be ${listed(
            things.map((thing) => `the ${thing.kind} ${thing.name}`),
            'or',
          )}.`,
          actual: text,
          expected: 'a name that only one of them has',
        };
      }
  },
};
