/** Numbers that stand in a drawing and that nobody says what they are. */
import type { ProcedureCheck } from './check.ts';
import { drawnNumbers, eachCallout, eachFigure, isCounted, listed, numbersIn } from './figures-shown.ts';

const drawing = (...words: readonly string[]): { readonly 'figures/scraper.svg': string } => ({
  'figures/scraper.svg': `<svg>${words.map((one) => `<text>${one}</text>`).join('')}</svg>`,
});

export const calloutExplained: ProcedureCheck = {
  id: 'callout-explained',
  scope: 'procedure',
  severity: 'advice',
  question: 'Is every number of a drawing named by the words of the figure or by a step?',
  why: 'Whoever meets a number in a drawing looks for what it is, and finds nothing.',
  source: 'common practice',
  cases: [
    {
      name: 'a number that nobody names',
      finds: 1,
      files: drawing('1', '2', '3'),
      work: '#. Clean the [scraper] (1).\n\n   ![Scraper 1 and arm 2](figures/scraper.svg)',
    },
    {
      name: 'named by the words, or by a step',
      finds: 0,
      files: drawing('1', '2', '3'),
      work: '#. Clean the [scraper] (3).\n\n   ![Scraper 1 and arm 2](figures/scraper.svg)',
    },
    {
      name: 'numbers of a scale are no callouts',
      finds: 0,
      files: drawing('0', '5', '10', '15', '1', '2'),
      work: '#. Clean the [scraper] (1).\n\n   ![Scraper 1 and gauge 2](figures/scraper.svg)',
    },
    {
      name: 'a drawing that is used without its numbers',
      finds: 0,
      files: drawing('1', '2', '3'),
      work: '#. Clean the [scraper].\n\n   ![The scraper from the left](figures/scraper.svg)',
    },
  ],
  *run(facts, library) {
    const { file, tree } = facts;
    const figures = eachFigure(tree);
    const called = [...eachCallout(facts, figures)];
    for (const figure of figures) {
      const drawn = drawnNumbers(library.figures.get(figure.path));
      if (drawn === undefined || !isCounted(drawn.alone)) continue;
      const named = new Set([
        ...numbersIn(figure.alt),
        ...called.filter(({ figures: own }) => own.some(({ path }) => path === figure.path)).map(({ number }) => number),
      ]);
      const left = new Set([...drawn.alone].filter((number) => !named.has(number)));
      if (left.size === 0 || left.size === drawn.alone.size) continue;
      yield {
        file,
        span: figure.span,
        message: `The drawing shows ${listed(left)}, and neither the words of the figure nor a step ${left.size === 1 ? 'says what it is' : 'say what they are'}.`,
        actual: listed(left),
        expected: `words that name ${listed(drawn.alone)}`,
      };
    }
  },
};
