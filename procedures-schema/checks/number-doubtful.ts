/** Numbers that can be read two ways. */
import { proseSpan } from '../format/index.ts';
import { findQuantities } from '../quantities/index.ts';
import type { ProcedureCheck } from './check.ts';
import { markOf } from './measured.ts';
import { allProseOf } from './visit.ts';

export const numberDoubtful: ProcedureCheck = {
  id: 'number-doubtful',
  scope: 'procedure',
  severity: 'warning',
  question: 'Can every number be read one way only?',
  why: '"1,200" is twelve hundred in one country and one point two in the next.',
  source: 'ISO 80000-1 and SP 811: no mark between thousands but a thin space (from memory); the library says its language',
  cases: [
    { name: 'a comma before three digits', finds: 1, work: '#. Read the plate: it says 1,200 r/min.' },
    { name: 'a decimal comma in an English library', finds: 1, work: '#. Read the plate: it says 5,5 mm.' },
    { name: 'plain', finds: 0, work: '#. Read the plate: it says 1200 r/min and 5.5 mm.' },
  ],
  *run({ file, tree }, { registers }) {
    for (const prose of allProseOf(tree))
      for (const found of findQuantities(prose.text, markOf(registers))) {
        const { quantity, at, end } = found;
        const doubt = [quantity.nominal, quantity.lower, quantity.upper, quantity.plus].find(
          (amount) => amount?.doubtful !== undefined,
        )?.doubtful;
        if (doubt !== undefined)
          yield {
            file,
            span: proseSpan(prose, at, found.second ? at + quantity.text.length : end),
            message: `${doubt}.`,
            actual: quantity.text,
            expected: "the number without a mark for thousands, and with the language's decimal mark",
          };
      }
  },
};
