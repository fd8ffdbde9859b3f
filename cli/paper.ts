/** The paper that `print` is asked for: a name or a size of one's own, refused with the reason. */
import { PAPER_EXAMPLE, PAPER_NAMES, type Paper, readPaper } from '../procedures-schema/index.ts';
import { CannotRun, type Option } from './command.ts';

export const paperOption: Option = {
  name: 'paper',
  value: `${PAPER_NAMES.join('|')}|"W x H"`,
  help: `paper, where it is not that of guide or house; "W x H" is width and height in mm or in, such as "${PAPER_EXAMPLE}"`,
};

export function paperChoice(typed: string): Paper {
  const read = readPaper(typed);
  if (read !== undefined && 'paper' in read) return read.paper;
  throw new CannotRun(read?.refused ?? `--paper is ${PAPER_NAMES.join(' or ')} or a size such as "${PAPER_EXAMPLE}", not "${typed}".`);
}
