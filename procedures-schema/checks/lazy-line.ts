/** Lines that belong to an item only because Markdown is forgiving. */
import { formCheck } from './form.ts';

export const lazyLine = formCheck(
  {
    id: 'lazy-line',
    severity: 'warning',
    question: 'Is every line of a step indented under it?',
    why: 'A line that only hangs on by courtesy falls out of its step at the next edit, and the numbering with it.',
    source: 'format rule F12; CommonMark 0.31.2, lazy continuation lines',
    cases: [
      { name: 'a second line at the margin', finds: 1, work: '#. Clean the [scraper] from the middle\nto both ends.' },
      { name: 'a second line indented', finds: 0, work: '#. Clean the [scraper] from the middle\n   to both ends.' },
    ],
  },
  ['lazy-line'],
);
