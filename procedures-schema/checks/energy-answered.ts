/** Every kind of energy is answered for each family, each source with what makes it safe. */

import type { EnergyKind } from '../registers/index.ts';
import type { LibraryCheck } from './check.ts';

/** Kinds a family must answer. Thermal is answered by steam as well. Appendix A list, with common practice for the rest. */
const ASKED: readonly (readonly EnergyKind[])[] = [
  ['electrical'],
  ['pneumatic'],
  ['hydraulic'],
  ['gravity'],
  ['spring'],
  ['thermal', 'steam'],
];

const SMALL = (energy: string): string =>
  `families:\n  drum mixer:\n    also: [mixer]\n    energy:\n${energy}      oil: {kind: hydraulic, none because: none}\n      springs: {kind: spring, none because: none}\n      heat: {kind: thermal, none because: none}\nmodels:\n  DM-10: {family: drum mixer}\n  DM-20: {family: drum mixer}\n`;

export const energyAnswered: LibraryCheck = {
  id: 'energy-answered',
  scope: 'library',
  severity: 'error',
  question: 'Is every kind of energy answered for each family, by a source or by "none, because"?',
  why: 'The kind nobody thought of is the one that strikes. An unanswered kind and a kind that is not there look alike.',
  source: '29 CFR 1910.147(d)(1) and Appendix A; semantics rule 1; rule L12',
  cases: [
    {
      name: 'nobody thought of gravity',
      finds: 1,
      body: '## Work\n\n#. Look at the mixer.\n',
      files: {
        'registers/equipment.yaml': SMALL(
          '      supply: {kind: electrical, size: 400 V, isolate: {main isolator: off}}\n      air: {kind: pneumatic, none because: none}\n',
        ),
      },
    },
    { name: 'all answered', finds: 0 },
  ],
  *run({ registers }) {
    for (const family of registers.families) {
      const answered = new Set([...family.sources, ...family.none].map((source) => source.kind));
      const missing = ASKED.filter((kinds) => !kinds.some((kind) => answered.has(kind))).map((kinds) => kinds[0] as string);
      if (missing.length > 0)
        yield {
          file: family.origin.file,
          span: family.origin.span,
          message: `The ${family.name} does not answer for ${missing.join(', ')} energy.`,
          actual: `answered: ${[...answered].sort().join(', ') || 'none'}`,
          expected: 'a source with its points, or "none because: ..." in plain words',
        };
      for (const source of family.sources)
        if (source.isolate.length === 0 && source.relieve.length === 0 && source.restrain.length === 0 && source.settles === undefined)
          yield {
            file: source.origin.file,
            span: source.origin.span,
            message: `The ${source.name} of the ${family.name} has nothing that makes it safe.`,
            actual: 'no isolate, relieve, restrain or settles in',
            expected: 'the point that cuts it off, lets it out or holds it',
          };
    }
  },
};
