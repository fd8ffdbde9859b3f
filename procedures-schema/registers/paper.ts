/** Paper as a writer names it: a usual size by its name, or width and height of one's own. Reads and bounds; margins and type are the layout's. */
import type { YamlNode } from '../format/index.ts';
import { MM, PAPER_FORM, PAPER_NAMES, type Paper, type PaperSize, sizeOfPaper } from '../paper-size.ts';
import { textOf } from './fields.ts';
import type { SchemaProblem } from './problem.ts';

/** What stands in messages for a size of one's own. */
export const PAPER_EXAMPLE = '160 x 230 mm';

/**
 * Our own bounds. Below: with the strip that is punched, head, foot and labels, forty letters are left to a line, and a turned page has room for a notice.
 * Above: A3 and tabloid are the largest sheets that a bound page is cut from.
 */
const LEAST: PaperSize = { width: 120 * MM, height: 170 * MM };
const MOST: PaperSize = { width: 300 * MM, height: 440 * MM };

/** undefined: neither a name nor a size. */
export function readPaper(typed: string): { readonly paper: Paper } | { readonly refused: string } | undefined {
  const text = typed.trim().toLowerCase();
  const named = PAPER_NAMES.find((name) => name === text);
  if (named !== undefined) return { paper: named };
  const found = PAPER_FORM.exec(text);
  if (found === null) return undefined;
  const [, wide = '', wideRest = '', high = '', highRest = '', unit = 'mm'] = found;
  const paper = `${plain(wide, wideRest)} x ${plain(high, highRest)} ${unit}` as Paper;
  const { width, height } = sizeOfPaper(paper);
  if (width > height)
    return {
      refused: `Paper of ${paper} lies on its side. Width comes first and is not the longer one: what needs a wide page is turned by itself.`,
    };
  if (width < LEAST.width || height < LEAST.height)
    return {
      refused: `Paper of ${paper} is too small: a line of it has no room for words that can be read. The smallest is 120 x 170 mm.`,
    };
  if (width > MOST.width || height > MOST.height)
    return { refused: `Paper of ${paper} is too large for a bound page. The largest is 300 x 440 mm.` };
  return { paper };
}

/** Without what does not count: "08.50" is 8.5. */
const plain = (whole: string, rest: string): string => {
  const kept = rest.replace(/0+$/, '');
  return `${whole.replace(/^0+(?=\d)/, '')}${kept === '' ? '' : `.${kept}`}`;
};

/** In a register or front matter; undefined where it is none, or cannot be printed on. */
export function paperIn(root: YamlNode | undefined): Paper | undefined {
  const read = readPaper(textOf(root, 'paper') ?? '');
  return read !== undefined && 'paper' in read ? read.paper : undefined;
}

/** The schema asks for the form; that such a page can be printed is asked here. */
export function paperProblems(node: YamlNode | undefined): SchemaProblem[] {
  const read = node?.kind === 'scalar' ? readPaper(node.text) : undefined;
  if (node?.kind !== 'scalar' || read === undefined || 'paper' in read) return [];
  return [
    { span: node.span, message: read.refused, actual: node.text, expected: 'a size from 120 x 170 mm to 300 x 440 mm', path: 'paper' },
  ];
}
