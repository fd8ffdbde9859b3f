/** Files of figures that a page cannot show: damaged, cut off, empty, of another kind than they are named. */
import { kindOfFigure } from '../figures/index.ts';
import type { ProcedureCheck } from './check.ts';
import { eachFigure } from './figures-shown.ts';

const shown = (path: string): string => `#. Clean the [scraper].\n\n   ![The scraper from the left](${path})`;

export const figureWhole: ProcedureCheck = {
  id: 'figure-whole',
  scope: 'procedure',
  severity: 'error',
  question: 'Can every figure be shown as it stands in its file?',
  why: 'A damaged picture prints as an empty frame, or as half of what it was; whoever needs it finds out at the machine.',
  source: 'format rule F2; PNG (ISO/IEC 15948), JPEG (ITU-T T.81, its dots read to the last), XML 1.0 on what makes a file whole',
  cases: [
    {
      name: 'a drawing that is cut off',
      finds: 1,
      files: { 'figures/scraper.svg': '<svg viewBox="0 0 90 60">\n<g>\n<path d="M0 0h9"/>' },
      work: shown('figures/scraper.svg'),
    },
    { name: 'a picture under a wrong name', finds: 1, files: { 'figures/scraper.png': 'GIF89a' }, work: shown('figures/scraper.png') },
    { name: 'an empty file', finds: 1, files: { 'figures/scraper.jpg': '' }, work: shown('figures/scraper.jpg') },
    { name: 'a kind that no page shows', finds: 1, files: { 'figures/scraper.gif': 'GIF89a' }, work: shown('figures/scraper.gif') },
    {
      name: 'a whole drawing',
      finds: 0,
      files: { 'figures/scraper.svg': '<svg viewBox="0 0 90 60"><path d="M0 0h9"/></svg>' },
      work: shown('figures/scraper.svg'),
    },
    { name: 'one that is not there is told by figure-there', finds: 0, work: shown('figures/scraper.gif') },
  ],
  *run({ file, tree }, { figures, paths }) {
    for (const { path, pathSpan } of eachFigure(tree)) {
      const told = { file, span: pathSpan, actual: path };
      if (kindOfFigure(path) === undefined) {
        if (paths.has(path))
          yield {
            ...told,
            message: `The figure ${path} is no file that a page can show.`,
            expected: 'a file that ends in .svg, .png or .jpg',
          };
        continue;
      }
      const fault = figures.get(path)?.fault;
      if (fault) yield { ...told, message: `The figure ${path} cannot be shown. ${fault.says}`, expected: fault.right };
    }
  },
};
