/** Paper as a writer names it: a usual size by its name, or width and height of one's own. Reads and bounds; margins and type are the layout's. */
import type { YamlNode } from '../format/index.ts';
import { textOf } from './fields.ts';
import type { SchemaProblem } from './problem.ts';

export const PAPER_NAMES = ['a4', 'letter', 'a5'] as const;
export type PaperName = (typeof PAPER_NAMES)[number];

/** Always in this form, so that one size has one name: "160 x 230 mm". */
export type Paper = PaperName | `${number} x ${number} ${'mm' | 'in'}`;

/** What stands in messages for a size of one's own. */
export const PAPER_EXAMPLE = '160 x 230 mm';

/** Whole tenths of a micrometre: millimetres and inches with three decimals have no other common measure. */
export interface PaperSize {
  readonly width: number;
  readonly height: number;
}

const MM = 10_000;
const THOUSANDTHS = { mm: MM / 1000, in: 254 } as const;

const NAMED: Readonly<Record<PaperName, PaperSize>> = {
  a4: { width: 210 * MM, height: 297 * MM },
  letter: { width: 8500 * THOUSANDTHS.in, height: 11_000 * THOUSANDTHS.in },
  a5: { width: 148 * MM, height: 210 * MM },
};

/**
 * Our own bounds. Below: with the strip that is punched, head, foot and labels, forty letters are left to a line, and a turned page has room for a notice.
 * Above: A3 and tabloid are the largest sheets that a bound page is cut from.
 */
const LEAST: PaperSize = { width: 120 * MM, height: 170 * MM };
const MOST: PaperSize = { width: 300 * MM, height: 440 * MM };

const FORM = /^(\d{1,4})(?:\.(\d{1,3}))?\s*[x×]\s*(\d{1,4})(?:\.(\d{1,3}))?\s*(mm|in)$/;

/** undefined: neither a name nor a size. */
export function readPaper(typed: string): { readonly paper: Paper } | { readonly refused: string } | undefined {
  const text = typed.trim().toLowerCase();
  const named = PAPER_NAMES.find((name) => name === text);
  if (named !== undefined) return { paper: named };
  const found = FORM.exec(text);
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

export function sizeOfPaper(paper: Paper): PaperSize {
  const found = FORM.exec(paper);
  if (found === null) return NAMED[paper as PaperName];
  const [, wide = '', wideRest = '', high = '', highRest = '', unit] = found;
  const length = (whole: string, rest: string): number => Number(`${whole}${rest.padEnd(3, '0')}`) * THOUSANDTHS[unit as 'mm' | 'in'];
  return { width: length(wide, wideRest), height: length(high, highRest) };
}

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
