/** Headings: titles that stand twice, sections without steps, levels that jump. */
import { formCheck } from './form.ts';

export const sectionForm = formCheck(
  {
    id: 'section-form',
    severity: 'error',
    question: 'Has every section one title of its own and steps under it?',
    why: 'A section is an address: "go to [Close up]" must lead to one place, and to something to do there.',
    source: 'format rules F5 and F9',
    cases: [
      {
        name: 'two sections of the same title',
        finds: 1,
        body: '## Clean\n\n#. Clean the [scraper].\n\n## Clean\n\n#. Read the [air gauge].\n',
      },
      { name: 'titles of their own', finds: 0 },
    ],
  },
  ['sections'],
);
