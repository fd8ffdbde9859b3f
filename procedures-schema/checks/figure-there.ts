/** Figures exist and say what they show. */

import { nearestNames } from '../registers/index.ts';
import type { ProcedureCheck } from './check.ts';
import { eachBlock } from './visit.ts';

export const figureThere: ProcedureCheck = {
  id: 'figure-there',
  scope: 'procedure',
  severity: 'error',
  question: 'Does every figure exist in the library and say in words what it shows?',
  why: 'A missing figure prints as an empty frame; a figure without words is nothing to a reader who cannot see it.',
  source: 'format rule F2; PDF/UA-1 (ISO 14289-1), figures with alternative text',
  cases: [
    { name: 'a file that is not there', finds: 1, work: '#. Clean the [scraper].\n\n   ![The scraper from the left](figures/scraper.svg)' },
    {
      name: 'no words',
      finds: 1,
      files: { 'figures/scraper.svg': '<svg/>' },
      work: '#. Clean the [scraper].\n\n   ![](figures/scraper.svg)',
    },
    {
      name: 'there and described',
      finds: 0,
      files: { 'figures/scraper.svg': '<svg/>' },
      work: '#. Clean the [scraper].\n\n   ![The scraper from the left](figures/scraper.svg)',
    },
  ],
  *run({ file, tree }, { paths }) {
    const blocks = [...tree.preface, ...tree.sections.flatMap((section) => section.blocks)];
    for (const figure of eachBlock(blocks, 'figure')) {
      if (!paths.has(figure.path)) {
        const [nearest] = nearestNames(
          figure.path,
          [...paths].filter((path) => path.startsWith('figures/')),
          1,
        );
        yield {
          file,
          span: figure.pathSpan,
          message: `The figure ${figure.path} is not in the library.`,
          actual: figure.path,
          expected: nearest ?? 'a file under figures/',
          ...(nearest
            ? { fix: { title: `Use ${nearest}`, edits: [{ file, start: figure.pathSpan.start, end: figure.pathSpan.end, text: nearest }] } }
            : {}),
        };
      }
      if (figure.alt.trim() === '')
        yield {
          file,
          span: figure.span,
          severity: 'warning',
          message: 'This figure does not say in words what it shows.',
          actual: 'no words between the brackets',
          expected: '![The lever from the left, pin out](figures/...)',
        };
    }
  },
};
