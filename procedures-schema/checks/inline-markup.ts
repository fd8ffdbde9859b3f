/** Brackets and marks inside a sentence that do not close or are not of this format. */
import { formCheck } from './form.ts';

export const inlineMarkup = formCheck(
  {
    id: 'inline-markup',
    severity: 'warning',
    question: 'Does every bracket and mark inside a sentence close, and is it one of this format?',
    why: 'An open bracket is printed as it stands and the reference in it leads nowhere.',
    source: 'format rules F2 and F3',
    cases: [
      { name: 'a bracket that never closes', finds: 1, work: '#. Clean the [scraper.' },
      { name: 'an escaped bracket', finds: 0, work: '#. Read the name plate, it says \\[DM\\].' },
    ],
  },
  ['inline-markup'],
);
