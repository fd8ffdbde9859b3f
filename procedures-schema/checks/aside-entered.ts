/** Falling into a section meant only to be called. */
import { flowCheck, onVariants } from './flow-check.ts';

export const asideEntered = flowCheck({
  id: 'aside-entered',
  severity: 'error',
  question: 'Is a section that is only called or jumped to marked {aside}?',
  why: 'Without the mark the reader falls into it after the section before, and does the work twice.',
  source: 'format rule F9; semantics rule 14',
  cases: [
    {
      name: 'called and not marked',
      finds: 1,
      body: '@SAFE\n## Work\n\n#. Clean the drum as in [Clean the drum].\n\n## Clean the drum\n\n#. Clean the [scraper].\n\n@CLOSE\n',
    },
    {
      name: 'called and marked',
      finds: 0,
      body: '@SAFE\n## Work\n\n#. Clean the drum as in [Clean the drum].\n\n## Clean the drum {aside}\n\n#. Clean the [scraper].\n\n@CLOSE\n',
    },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['falls-into-aside'],
  message: (v) => `The walk falls into the section "${v.thing}", which is only called or jumped to${onVariants(v)}.`,
  expected: () => '{aside} after its heading, or a step that ends the section before',
});
