/** Numbers in brackets that point into a figure, held against the numbers that the figure's own words name. */
import { type Figure, type Prose, proseSpan } from '../format/index.ts';
import type { ProcedureCheck, ProcedureFacts } from './check.ts';
import { eachBlock, eachProse } from './visit.ts';

const FIGURE = '![Scraper 1, arm 2 and spring 3](figures/scraper.svg)';
const files = { 'figures/scraper.svg': '<svg/>' };

export const calloutThere: ProcedureCheck = {
  id: 'callout-there',
  scope: 'procedure',
  severity: 'warning',
  question: 'Is every callout in a step one of those that the words of its figure name?',
  why: 'A number that the figure does not have sends the hand to the wrong part, or leaves it looking.',
  source: 'format rule F3: callouts are checked against the figure',
  cases: [
    { name: 'a number the figure does not name', finds: 1, files, work: `#. Clean the [scraper] (9).\n\n   ${FIGURE}` },
    { name: 'in square brackets', finds: 1, files, work: `#. Clean the [scraper] [4].\n\n   ${FIGURE}` },
    { name: 'all are named', finds: 0, files, work: `#. Clean the [scraper] (1) below the arm (2).\n\n   ${FIGURE}` },
    {
      name: 'a figure whose words name no numbers',
      finds: 0,
      files,
      work: '#. Clean the [scraper] (1).\n\n   ![The scraper from the left](figures/scraper.svg)',
    },
    { name: 'no figure at all', finds: 0, work: '#. Clean the [scraper] (twice).' },
  ],
  *run(facts) {
    const { file, tree } = facts;
    const blocks = [...tree.preface, ...tree.sections.flatMap((section) => section.blocks)];
    const figures = [...eachBlock(blocks, 'figure')];
    if (figures.length === 0) return;
    for (const { prose, end } of stepsOf(facts)) {
      const named = namedBy(figureFor(end, figures));
      if (named.size === 0) continue;
      for (const { number, at, to } of calloutsIn(prose)) {
        if (named.has(number)) continue;
        yield {
          file,
          span: proseSpan(prose, at, to),
          message: `The figure that (${number}) points into names no ${number}.`,
          actual: number,
          expected: [...named].join(', '),
        };
      }
    }
  },
};

/** Words of all steps, each with the end of the step they belong to. */
function* stepsOf({ read, tree }: ProcedureFacts): Iterable<{ readonly prose: Prose; readonly end: number }> {
  const ends = read.labels.steps.map(({ step }) => step.span);
  for (const prose of eachProse(tree.sections.flatMap(({ blocks }) => blocks))) {
    const { start } = proseSpan(prose, 0, prose.text.length);
    // The innermost step comes last.
    const own = ends.findLast((span) => span.start <= start && start < span.end);
    if (own) yield { prose, end: own.end };
  }
}

/** As printed: the last figure that was shown before the step ends, else the first. */
const figureFor = (end: number, figures: readonly Figure[]): Figure | undefined =>
  figures.findLast(({ span }) => span.start < end) ?? figures[0];

function namedBy(figure: Figure | undefined): ReadonlySet<string> {
  // A number with a unit or a decimal is a size.
  const found = (figure?.alt ?? '').matchAll(/(?<![\d.,/-])(\d{1,2})(?![\d/-]|[.,]\d|\s*(?:mm|cm|m|in|°|%|kg|N|V|A|bar|psi)\b)/g);
  return new Set([...found].map(([, number = '']) => number));
}

function* calloutsIn(prose: Prose): Iterable<{ readonly number: string; readonly at: number; readonly to: number }> {
  for (const mark of prose.marks)
    if (mark.kind === 'reference' && mark.form.kind === 'callout') yield { number: mark.form.number, at: mark.at, to: mark.end };
  for (const { index, 0: all, 1: number = '' } of prose.text.matchAll(/\((\d{1,2})\)/g))
    yield { number, at: index, to: index + all.length };
}
