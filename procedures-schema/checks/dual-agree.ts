/** A value and its second value in brackets agree. */

import type { Prose } from '../format/index.ts';
import { proseSpan } from '../format/index.ts';
import { compareDual, type DecimalMark, findQuantities, parseQuantity, type Quantity } from '../quantities/index.ts';
import type { ProcedureCheck } from './check.ts';
import { markOf } from './measured.ts';
import { eachProse } from './visit.ts';

export const dualAgree: ProcedureCheck = {
  id: 'dual-agree',
  scope: 'procedure',
  severity: 'error',
  question: 'Do a value and its second value in brackets agree within the digits written?',
  why: 'Half the readers use one of the two. If they differ, half the machines are set wrong.',
  source: 'NIST SP 811 (2008), Appendix B.7 and B.8; limits rounded inward: IEEE/ASTM SI 10 method B (from memory)',
  cases: [
    {
      name: 'foot taken for inch',
      finds: 1,
      work: '#. Read the plate: it says 25 N·m (221 lbf·ft).\n                           ^^^^^^^^^^^^^^^^^^^^',
    },
    {
      name: 'in square brackets',
      finds: 1,
      work: '#. Read the plate: it says 25 N·m [221 lbf·ft].\n                           ^^^^^',
    },
    { name: 'rounded outward', finds: 1, work: '#. Read the plate: it says 6.35 mm to 9.53 mm (0.2 in to 0.4 in).' },
    { name: 'agree', finds: 0, work: '#. Read the plate: it says 25 N·m (18 lbf·ft).' },
  ],
  *run({ file, tree }, { registers }) {
    const sections = [...tree.preface, ...tree.sections.flatMap((section) => section.blocks)];
    for (const prose of eachProse(sections))
      for (const { quantity, second, at, end } of pairsIn(prose, markOf(registers))) {
        const verdict = compareDual(quantity, second, markOf(registers));
        if (verdict.kind === 'agree') continue;
        const inside = proseSpan(prose, end - second.text.length, end);
        yield {
          file,
          span: proseSpan(prose, at, end),
          message:
            verdict.kind === 'other quantity'
              ? `${quantity.text} and ${second.text} measure different quantities.`
              : verdict.kind === 'differ'
                ? `${quantity.text} is not ${second.text}.`
                : `${second.text} allows more than ${quantity.text}.`,
          actual: second.text,
          expected: verdict.kind === 'other quantity' ? `a second value in a unit of ${quantity.unit.kind}` : verdict.shouldRead,
          ...(verdict.kind === 'other quantity'
            ? {}
            : {
                severity: verdict.kind === 'looser' ? ('warning' as const) : ('error' as const),
                fix: {
                  title: `Write ${verdict.shouldRead}`,
                  edits: [{ file, start: inside.start, end: inside.end, text: verdict.shouldRead }],
                },
              }),
        };
      }
  },
};

interface Pair {
  readonly quantity: Quantity;
  readonly second: Quantity;
  readonly at: number;
  /** Where the second value's words end. */
  readonly end: number;
}

/** "25 N·m (18 lbf·ft)" as typed, and "25 N·m [18 lbf·ft]", whose brackets are marks and no longer in the text. */
function* pairsIn(prose: Prose, mark: DecimalMark): Iterable<Pair> {
  const found = findQuantities(prose.text, mark);
  for (const { quantity, second, at } of found)
    if (second) yield { quantity, second: second.quantity, at, end: second.at + second.quantity.text.length };
  for (const one of prose.marks) {
    if (one.kind !== 'reference' || one.form.kind !== 'second-value') continue;
    const first = found.find(({ end }) => end <= one.at && prose.text.slice(end, one.at).trim() === '');
    const second = parseQuantity(one.form.value, mark);
    if (first && second && !first.second)
      yield { quantity: first.quantity, second: { ...second, text: one.form.value }, at: first.at, end: one.end };
  }
}
