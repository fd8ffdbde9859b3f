/** Pounds for a force, and pound-feet for a torque. */
import { proseSpan } from '../format/index.ts';
import { findQuantities, unitOf } from '../quantities/index.ts';
import type { ProcedureCheck } from './check.ts';
import { markOf } from './measured.ts';
import { proseOf } from './visit.ts';

const FORCE =
  /\b(?:forces?|pull(?:s|ed|ing)?|push(?:es|ed|ing)?|press(?:es|ed|ing)?|deflect\w*|tension|load cell|spring balance|force gauge)\b/i;

export const forceNotMass: ProcedureCheck = {
  id: 'force-not-mass',
  scope: 'procedure',
  severity: 'warning',
  question: 'Are forces given in force units and torques in torque units?',
  why: '"lb" is a mass. Converted as a mass it becomes kilograms, and the reader pulls with ten times too little or too much.',
  source: 'NIST SP 811 (2008): pound-force lbf against pound lb',
  cases: [
    {
      name: 'pulled with pounds',
      finds: 1,
      work: '#. Pull the [scraper] with a force of 9 lb.\n                                      ^^^^',
    },
    { name: 'torque in pound-feet', finds: 1, work: '#. Read the plate: it says 18 ft-lb.\n                           ^^^^^^^^' },
    { name: 'a mass in pounds', finds: 0, work: '#. Read the plate: the drum weighs 176 lb.' },
  ],
  *run({ file, tree }, { registers }) {
    for (const prose of proseOf(tree))
      for (const found of findQuantities(prose.text, markOf(registers)))
        for (const { quantity, at } of found.second ? [found, found.second] : [found]) {
          const { meant } = quantity.unit;
          if (!meant || (meant.kind === 'force' && !FORCE.test(prose.text.slice(Math.max(0, at - 60), at)))) continue;
          const right = unitOf(meant.symbol);
          const text = quantity.text.replace(/[^\d\s.,/½¼¾⅛⅜⅝⅞-]+$/u, '').trimEnd();
          yield {
            file,
            span: proseSpan(prose, at, at + quantity.text.length),
            message: `"${quantity.text}" is a ${quantity.unit.kind === 'torque' ? 'mass times a length' : 'mass'}; a ${meant.kind} is meant.`,
            actual: quantity.unit.symbol,
            expected: meant.symbol,
            ...(right
              ? {
                  fix: {
                    title: `Write ${meant.symbol}`,
                    edits: [{ file, ...proseSpan(prose, at, at + quantity.text.length), text: `${text} ${meant.symbol}` }],
                  },
                }
              : {}),
          };
        }
  },
};
