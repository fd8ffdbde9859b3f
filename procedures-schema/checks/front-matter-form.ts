/** Front matter and YAML files that cannot be read as written. */
import { formCheck } from './form.ts';

export const frontMatterForm = formCheck(
  {
    id: 'front-matter-form',
    severity: 'error',
    question: 'Can the front matter and the registers be read as they are written?',
    why: 'What cannot be read is not checked: models, tools and limits would be missing without a word.',
    source: 'format rule F11; YAML 1.2',
    cases: [
      { name: 'no front matter at all', finds: 1, files: { 'procedures/FX-101.md': '## Work\n\n#. Clean the [scraper].\n' } },
      { name: 'a bracket that never closes', finds: 1, front: 'models: [DM-10, DM-20' },
      { name: 'plain front matter', finds: 0 },
    ],
  },
  ['front-matter'],
);
