/** A value and its second value in brackets agree. */
import { proseSpan } from '../format/index.ts';
import { compareDual, findQuantities } from '../quantities/index.ts';
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
      work: '#. Read the plate: it says 25 N·m (221 lbf·ft).\n                          ^^^^^^^^^^^^^^^^^^^^',
    },
    { name: 'rounded outward', finds: 1, work: '#. Read the plate: it says 6.35 mm to 9.53 mm (0.2 in to 0.4 in).' },
    { name: 'agree', finds: 0, work: '#. Read the plate: it says 25 N·m (18 lbf·ft).' },
  ],
  *run({ file, tree }, { registers }) {
    const sections = [...tree.preface, ...tree.sections.flatMap((section) => section.blocks)];
    for (const prose of eachProse(sections))
      for (const { quantity, second, at } of findQuantities(prose.text, markOf(registers))) {
        if (!second) continue;
        const verdict = compareDual(quantity, second.quantity);
        if (verdict.kind === 'agree') continue;
        const inside = proseSpan(prose, second.at, second.at + second.quantity.text.length);
        yield {
          file,
          span: proseSpan(prose, at, second.end),
          message:
            verdict.kind === 'other quantity'
              ? `${quantity.text} and ${second.quantity.text} measure different quantities.`
              : verdict.kind === 'differ'
                ? `${quantity.text} is not ${second.quantity.text}.`
                : `${second.quantity.text} allows more than ${quantity.text}.`,
          actual: second.quantity.text,
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
