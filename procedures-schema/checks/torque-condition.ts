/** A torque says dry or lubricated: M3. */
import type { LibraryCheck } from './check.ts';

export const torqueCondition: LibraryCheck = {
  id: 'torque-condition',
  scope: 'library',
  severity: 'warning',
  question: 'Does every registered torque say whether it is for dry or lubricated threads?',
  why: 'The same 82 N·m gives about 34 kN dry and 45 kN lubricated: one of the two stretches the bolt.',
  source: 'reference "mechanical" 3 and rule M3 (fetched worked example, nut factors 0.20 and 0.15)',
  cases: [
    {
      name: 'a bare torque',
      finds: 1,
      body: '## Work\n\n#. Look at the mixer.\n',
      files: {
        'registers/equipment.yaml':
          'families:\n  drum mixer:\n    also: [mixer]\n    energy:\n      supply: {kind: electrical, none because: hand driven}\n      air: {kind: pneumatic, none because: none}\n      weight: {kind: gravity, none because: none}\n      oil: {kind: hydraulic, none because: none}\n      springs: {kind: spring, none because: none}\n      heat: {kind: thermal, none because: none}\n    fasteners:\n      scraper bolts: {count: 2, torque: 25 N·m}\nmodels:\n  DM-10: {family: drum mixer}\n  DM-20: {family: drum mixer}\n',
      },
    },
    { name: 'dry', finds: 0 },
  ],
  *run({ registers }) {
    for (const family of registers.families)
      for (const { name, torque, condition, origin } of family.fasteners)
        if (torque !== undefined && condition === undefined)
          yield {
            file: origin.file,
            span: origin.span,
            message: `The torque of the ${name} of the ${family.name} does not say dry or lubricated.`,
            actual: torque,
            expected: 'condition: dry, or condition: lubricated',
          };
  },
};
