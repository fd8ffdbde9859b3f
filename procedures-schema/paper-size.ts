/** How large a sheet of each name or form is. Stands alone, so that whoever only prints loads nothing that reads a library; what is read: registers/paper.ts. */

export const PAPER_NAMES = ['a4', 'letter', 'a5'] as const;
export type PaperName = (typeof PAPER_NAMES)[number];

/** Always in this form, so that one size has one name: "160 x 230 mm". */
export type Paper = PaperName | `${number} x ${number} ${'mm' | 'in'}`;

/** Whole tenths of a micrometre: millimetres and inches with three decimals have no other common measure. */
export interface PaperSize {
  readonly width: number;
  readonly height: number;
}

export const MM = 10_000;
const THOUSANDTHS = { mm: MM / 1000, in: 254 } as const;

const NAMED: Readonly<Record<PaperName, PaperSize>> = {
  a4: { width: 210 * MM, height: 297 * MM },
  letter: { width: 8500 * THOUSANDTHS.in, height: 11_000 * THOUSANDTHS.in },
  a5: { width: 148 * MM, height: 210 * MM },
};

/** Width and height of one's own, with at most three decimals. */
export const PAPER_FORM = /^(\d{1,4})(?:\.(\d{1,3}))?\s*[x×]\s*(\d{1,4})(?:\.(\d{1,3}))?\s*(mm|in)$/;

export function sizeOfPaper(paper: Paper): PaperSize {
  const found = PAPER_FORM.exec(paper);
  if (found === null) return NAMED[paper as PaperName];
  const [, wide = '', wideRest = '', high = '', highRest = '', unit] = found;
  const length = (whole: string, rest: string): number => Number(`${whole}${rest.padEnd(3, '0')}`) * THOUSANDTHS[unit as 'mm' | 'in'];
  return { width: length(wide, wideRest), height: length(high, highRest) };
}
