/** What `print` says about sheets that are folded or cut: its options as a table, and their words as one choice. Prints nothing. */
import type { PressChoice } from '../publishing/index.ts';
import { CannotRun, type Given, type Option } from './command.ts';

const papers = ['a4', 'a3', 'letter', 'legal', 'tabloid'] as const;

export const pressOptions: readonly Option[] = [
  { name: 'booklet', help: 'two pages a side, in the order for folding and stapling; print on both sides, flipped on the short edge' },
  { name: 'two-up', help: 'two pages a side, in reading order' },
  {
    name: 'sheet',
    value: 'PAPER',
    choices: papers,
    help: 'paper in the printer, for --booklet and --two-up (a4, or letter for pages in inches)',
  },
  {
    name: 'signature',
    value: 'SHEETS',
    help: 'sheets folded into one another; then the next ones, to be sewn or glued (all in one, if not given)',
  },
  { name: 'thickness', value: 'MM', help: 'of one sheet: inner pages move towards the fold by what the sheets around them push out (0.1)' },
  { name: 'cut-marks', help: 'marks to cut and fold by; the pages get smaller where the sheet leaves no room for them' },
  { name: 'test-sheet', help: 'a sheet to try the printer with comes first: crosses that must meet in the light' },
];

/** undefined: pages as they are. */
export function pressChoice({ values, flags }: Given): PressChoice | undefined {
  const booklet = flags.has('booklet');
  if (booklet && flags.has('two-up')) throw new CannotRun('print makes either a --booklet or --two-up.');
  if (!booklet && !flags.has('two-up')) {
    const stray =
      ['sheet', 'signature', 'thickness'].find((name) => values[name] !== undefined) ??
      ['cut-marks', 'test-sheet'].find((name) => flags.has(name));
    if (stray !== undefined) throw new CannotRun(`--${stray} goes with --booklet or --two-up.`);
    return undefined;
  }
  const inside = ['fillable', 'attach'].find((name) => flags.has(name));
  if (inside !== undefined) throw new CannotRun(`--${inside} makes no sense on sheets that are cut and folded.`);
  const only = ['signature', 'thickness'].find((name) => values[name] !== undefined);
  if (!booklet && only !== undefined) throw new CannotRun(`--${only} goes with --booklet.`);
  return {
    kind: booklet ? 'booklet' : 'two-up',
    sheet: (values.sheet ?? (/letter|in$/i.test(values.paper ?? '') ? 'letter' : 'a4')) as PressChoice['sheet'],
    ...(values.signature === undefined ? {} : { signature: sheetsIn(values.signature) }),
    ...(booklet ? { thickness: thickness(values.thickness ?? '0.1') } : {}),
    marks: flags.has('cut-marks'),
    test: flags.has('test-sheet'),
  };
}

function sheetsIn(typed: string): number {
  if (!/^[1-9]\d{0,2}$/.test(typed)) throw new CannotRun(`--signature is a number of sheets, such as 4; not "${typed}".`);
  return Number(typed);
}

/** Millimetres with up to two decimals, as millipoints. */
function thickness(typed: string): number {
  if (!/^[01](\.\d{1,2})?$/.test(typed) || Number(typed) > 1)
    throw new CannotRun(`--thickness is millimetres from 0 to 1, such as 0.1; not "${typed}".`);
  return Math.round((Number(typed) * 72_000) / 25.4);
}
