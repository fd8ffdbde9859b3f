/** Print in a drawing that comes out too small on the paper of the house. Where it comes out smaller still, in a step, the layout says so. */
import { LEAST_PRINT, mostScale } from '../figures/index.ts';
import { sizeOfPaper } from '../registers/index.ts';
import type { ProcedureCheck } from './check.ts';
import { eachFigure } from './figures-shown.ts';

const work = '#. Clean the [scraper].\n\n   ![The scraper from the left](figures/scraper.svg)';
const drawing = (width: number): { readonly 'figures/scraper.svg': string } => ({
  'figures/scraper.svg': `<svg width="${width}" height="300"><text font-size="12">scraper</text></svg>`,
});

export const figureLegible: ProcedureCheck = {
  id: 'figure-legible',
  scope: 'procedure',
  severity: 'warning',
  question: 'Can the smallest print of every drawing be read when it stands on paper?',
  why: "A drawing is fitted to the page, and its words with it. What is not read at arm's length is not read at the machine.",
  source: 'common practice: print of 7 points at the least',
  cases: [
    { name: 'a drawing wider than the page, its words in proportion', finds: 1, files: drawing(1400), work },
    { name: 'one that is not shrunk so far', finds: 0, files: drawing(700), work },
    { name: 'one without words', finds: 0, files: { 'figures/scraper.svg': '<svg width="1400" height="300"/>' }, work },
  ],
  *run({ file, tree }, { figures, registers }) {
    const { paper } = registers.house;
    const size = sizeOfPaper(paper);
    // Tenths of a micrometre to thousandths of a point.
    const page = { width: (size.width * 72) / 254, height: (size.height * 72) / 254 };
    for (const figure of eachFigure(tree)) {
      const facts = figures.get(figure.path);
      if (facts?.kind !== 'svg' || facts.fault || facts.smallest === undefined) continue;
      const printed = facts.smallest * mostScale(facts, page);
      if (printed >= LEAST_PRINT) continue;
      const points = Math.floor(printed / 100) / 10;
      yield {
        file,
        span: figure.pathSpan,
        message: `The smallest print of this figure comes out at ${points} pt at the most on paper of the house.`,
        actual: `${points} pt`,
        expected: `${LEAST_PRINT / 1000} pt: larger words in the drawing, or two drawings`,
      };
    }
  },
};
