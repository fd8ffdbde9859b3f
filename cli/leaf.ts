/** What `print` is asked about the leaf: paper, bound edge, one or both sides. Its options as a table, their words as one choice; refused with the reason. */
import { PAPER_EXAMPLE, PAPER_NAMES, type Paper, readPaper } from '../procedures-schema/index.ts';
import type { PrintChoice } from '../publishing/index.ts';
import { CannotRun, type Given, type Option } from './command.ts';

const bindings = ['left', 'top', 'none'] as const;

export const leafOptions: readonly Option[] = [
  {
    name: 'paper',
    value: `${PAPER_NAMES.join('|')}|"W x H"`,
    help: `paper, where it is not that of guide or house; "W x H" is width and height in mm or in, such as "${PAPER_EXAMPLE}"`,
  },
  {
    name: 'binding',
    value: bindings.join('|'),
    choices: bindings,
    help: 'bound edge, which gets the wider margin, where it is not that of the guide (left for a procedure)',
  },
  { name: 'two-sided', help: 'for printing on both sides: the bound margin changes sides from page to page' },
  { name: 'one-sided', help: 'for printing on one side, where guide or checklist would be on both' },
];

export function leafChoice({ values, flags }: Given): PrintChoice {
  const { paper, binding } = values;
  const [one, two] = [flags.has('one-sided'), flags.has('two-sided')];
  if (one && two) throw new CannotRun('print is either --one-sided or --two-sided.');
  if (flags.has('booklet') && one) throw new CannotRun('A --booklet is printed on both sides, so it is not --one-sided.');
  if (flags.has('booklet') && (binding ?? 'left') !== 'left')
    throw new CannotRun(`A --booklet is folded at the left, so --binding ${binding} makes no sense.`);
  return {
    ...(paper === undefined ? {} : { paper: paperNamed(paper) }),
    ...(binding === undefined ? {} : { binding: binding as (typeof bindings)[number] }),
    ...(one || two ? { duplex: two } : {}),
  };
}

function paperNamed(typed: string): Paper {
  const read = readPaper(typed);
  if (read !== undefined && 'paper' in read) return read.paper;
  throw new CannotRun(read?.refused ?? `--paper is ${PAPER_NAMES.join(' or ')} or a size such as "${PAPER_EXAMPLE}", not "${typed}".`);
}
