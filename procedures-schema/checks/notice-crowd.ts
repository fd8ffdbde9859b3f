/** Too many notices close together. */
import type { ProcedureCheck } from './check.ts';
import { eachNotice } from './visit.ts';

/** About a page of steps, and what a reader still takes in on it. Common practice, no source. */
const STEPS_A_PAGE = 12;
const NOTICES_A_PAGE = 5;

export const noticeCrowd: ProcedureCheck = {
  id: 'notice-crowd',
  scope: 'procedure',
  severity: 'advice',
  question: 'Are there so many notices on a page that none is read?',
  why: 'Six warnings on a page are wallpaper. What holds for a whole section stands once, under its heading.',
  source: 'common practice, no source; ISO 9244:2020: DANGER used sparingly',
  cases: [
    {
      name: 'a notice at every step',
      finds: 1,
      work: `${':::caution\nThe edge is sharp. It can cut your hand. Keep your hand off it.\n:::\n\n#. Clean the [scraper].\n\n'.repeat(6)}`,
    },
    {
      name: 'one notice',
      finds: 0,
      work: ':::caution\nThe edge is sharp. It can cut your hand. Keep your hand off it.\n:::\n\n#. Clean the [scraper].',
    },
  ],
  *run({ file, tree, read }) {
    const starts = read.labels.steps.map((step) => step.step.span.start);
    const places = [...eachNotice(tree.sections)].map(({ notice }) => ({
      notice,
      at: starts.filter((start) => start < notice.span.start).length,
    }));
    let told = -1;
    for (const [index, { notice, at }] of places.entries()) {
      const first = places[index - NOTICES_A_PAGE];
      if (!first || at - first.at >= STEPS_A_PAGE || first.at < told) continue;
      told = at;
      yield {
        file,
        span: notice.wordSpan,
        message: `${NOTICES_A_PAGE + 1} notices stand within ${at - first.at + 1} steps.`,
        actual: `${NOTICES_A_PAGE + 1} on a page's worth of steps`,
        expected: 'one notice under the heading for what holds throughout, single ones only where something is special',
      };
    }
  },
};
