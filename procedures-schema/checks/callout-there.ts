/** Numbers in brackets that point into a figure, and those that its words name, held against the numbers that stand in the drawing. */
import { proseSpan } from '../format/index.ts';
import type { ProcedureCheck } from './check.ts';
import { type DrawnNumbers, drawnNumbers, eachCallout, eachFigure, isCounted, listed, numbersIn } from './figures-shown.ts';

const FIGURE = '![Scraper 1, arm 2 and spring 3](figures/scraper.svg)';
const drawing = (...words: readonly string[]): { readonly 'figures/scraper.svg': string } => ({
  'figures/scraper.svg': `<svg>${words.map((one) => `<text>${one}</text>`).join('')}</svg>`,
});
const files = drawing();

export const calloutThere: ProcedureCheck = {
  id: 'callout-there',
  scope: 'procedure',
  severity: 'warning',
  question: 'Is every callout one of those that its figure shows?',
  why: 'A number that the figure does not have sends the hand to the wrong part, or leaves it looking.',
  source: 'format rule F3: callouts are checked against the figure',
  cases: [
    {
      name: 'a number that the drawing does not show, whatever its words say',
      finds: 1,
      files: drawing('1', '2'),
      work: '#. Clean the [scraper] (3).\n                       ^^^\n\n   ![Scraper 1, arm 2 and another arm with 3 holes](figures/scraper.svg)',
    },
    {
      name: 'words that name a number which is not drawn',
      finds: 1,
      files: drawing('1', '2'),
      work: `#. Clean the [scraper] (1).\n\n   ${FIGURE}`,
    },
    {
      name: 'drawn and not in the words',
      finds: 0,
      files: drawing('1', '2', '3', '4'),
      work: `#. Clean the [scraper] (4).\n\n   ${FIGURE}`,
    },
    {
      name: 'drawn in one line with others',
      finds: 0,
      files: drawing('1', '2, 3', '4–6'),
      work: `#. Clean the [scraper] (3).\n#. Clean the [scraper] (5).\n\n   ${FIGURE}`,
    },
    {
      name: 'a drawing with letters as outlines: its words are asked',
      finds: 1,
      files: drawing('oil tank'),
      work: `#. Clean the [scraper] (9).\n\n   ${FIGURE}`,
    },
    { name: 'a number the figure does not name', finds: 1, files, work: `#. Clean the [scraper] (9).\n\n   ${FIGURE}` },
    { name: 'in square brackets', finds: 1, files, work: `#. Clean the [scraper] [4].\n\n   ${FIGURE}` },
    { name: 'all are named', finds: 0, files, work: `#. Clean the [scraper] (1) below the arm (2).\n\n   ${FIGURE}` },
    {
      name: 'named as a range',
      finds: 0,
      files,
      work: '#. Clean the [scraper] (3).\n\n   ![Bolts 1 to 6 of the scraper and gasket 7](figures/scraper.svg)',
    },
    {
      name: 'a place said behind it, which is no inch',
      finds: 0,
      files,
      work: '#. Clean the [scraper] (2).\n\n   ![Scraper 1 and arm 2 in the frame](figures/scraper.svg)',
    },
    {
      name: 'of another figure that the step names',
      finds: 0,
      files: { ...drawing('1'), 'figures/arm.svg': '<svg><text>1</text><text>2</text></svg>' },
      work: '#. Clean the [scraper].\n\n   ![Arm 1 and pin 2](figures/arm.svg){#arm}\n\n#. Clean the [scraper] (2), see [figure #arm].\n\n   ![Scraper 1](figures/scraper.svg)',
    },
    {
      name: 'a figure whose words name no numbers',
      finds: 0,
      files,
      work: '#. Clean the [scraper] (1).\n\n   ![The scraper from the left](figures/scraper.svg)',
    },
    {
      name: 'shares and angles are no callouts',
      finds: 0,
      files,
      work: '#. Clean the [scraper] (1).\n\n   ![The scraper at 20 % of its way, turned by 45 °](figures/scraper.svg)',
    },
    { name: 'no figure at all', finds: 0, work: '#. Clean the [scraper] (twice).' },
  ],
  *run(facts, library) {
    const { file, tree } = facts;
    const figures = eachFigure(tree);
    for (const { alt, path, span } of figures) {
      const drawn = drawnNumbers(library.figures.get(path));
      const named = numbersIn(alt);
      // Words that count from 1 name callouts; a number by itself may be a size or a type, and one before a noun says how many there are.
      if (drawn === undefined || named.size < 2 || !isCounted(named)) continue;
      const missing = new Set([...namesIn(alt)].filter((number) => !drawn.all.has(number)));
      if (missing.size > 0)
        yield {
          file,
          span,
          message: `The words of this figure name ${listed(missing)}, which the drawing does not show.`,
          actual: listed(missing),
          expected: listed(drawn.alone),
        };
    }
    for (const { number, prose, at, to, figures: own } of eachCallout(facts, figures)) {
      const shown = own.map(({ alt, path }) => numbersOf(drawnNumbers(library.figures.get(path)), alt));
      const known = shown.filter(({ numbers }) => numbers.size > 0);
      if (known.length === 0 || known.length < shown.length || known.some(({ numbers }) => numbers.has(number))) continue;
      yield {
        file,
        span: proseSpan(prose, at, to),
        message: `The figure that (${number}) points into ${known.at(-1)?.drawn ? 'shows' : 'names'} no ${number}.`,
        actual: number,
        expected: listed(new Set(known.flatMap(({ expected }) => [...expected]))),
      };
    }
  },
};

/** Numbers behind the name of what they are, alone or as a range: "arm 3," and "bolts 1 to 6 in order", not "3 arms". */
function namesIn(words: string): ReadonlySet<string> {
  const out = new Set<string>();
  const found = words.matchAll(
    /[a-z] (\d{1,2})(?: ?(?:-|–|to) ?(\d{1,2}))?(?=$|[,.;:)]| (?:and|or|with|in|on|at|from|below|above|beside|behind)\b)/g,
  );
  for (const [, from = '', to = from] of found) for (let number = Number(from); number <= Number(to); number += 1) out.add(String(number));
  return out;
}

interface Shown {
  readonly drawn: boolean;
  readonly numbers: ReadonlySet<string>;
  readonly expected: ReadonlySet<string>;
}

/** What is drawn says more than what is written about it. */
function numbersOf(drawn: DrawnNumbers | undefined, alt: string): Shown {
  if (drawn) return { drawn: true, numbers: drawn.all, expected: drawn.alone };
  const numbers = numbersIn(alt);
  return { drawn: false, numbers, expected: numbers };
}
