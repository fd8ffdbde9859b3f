/**
 * Eight sound procedures of other trades, written by eight hands, and several hundred dangerous slips, one at a time: a hand in while energy is live, a lock
 * wished for, a proof that shows nothing, a model left out, an order hidden in a clause. What each slip does is told as an error or its words are said to be
 * unread; none may pass in silence. Source: common practice, no source; the slips were written before the reader was mended, and what it missed then is why
 * `reading/left-over.ts` and `reading/told-in-passing.ts` are there.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';

interface Slip {
  readonly file: string;
  readonly why: string;
  readonly from: string;
  readonly to: string;
}

const folder = join(import.meta.dirname, 'traps');
const read = (path: string): string => readFileSync(join(folder, path), 'utf8');
const SLIPS = JSON.parse(read('faults.json')) as readonly Slip[];
const standing = ['library.yaml', ...readdirSync(join(folder, 'registers')).map((file) => `registers/${file}`)].map((path) => ({
  path,
  text: read(path),
}));

/** What still passes, and why it cannot be seen. Whoever mends it takes it out here. */
const PASSES: readonly string[] = [
  // What the thermometer shows is asked for by the proof, and which way the answer leads is not: on the way "over the limit" the hands go in too.
  'heat: over the limit, and on it goes',
  // Where at the machine a meter is held, no register says: any place counts as the right one.
  'meter held to the fan',
  // "Does the hook feel loose?" is asked where hands may be, too; a question orders nothing.
  'a question that a hand has to answer',
];

/** Steps numbered anew: a slip may add or take away one. */
function numbered(text: string): string {
  let count = 0;
  return text
    .split('\n')
    .map((line) => {
      if (line.startsWith('## ')) count = 0;
      const found = /^\d+\. /.exec(line);
      if (found === null) return line;
      count += 1;
      return `${count}. ${line.slice(found[0].length)}`;
    })
    .join('\n');
}

/** Errors of one procedure, without what the rest of the library would have to say of it. */
function errorsOf(file: string, text: string): readonly string[] {
  const path = `procedures/${file}.md`;
  const { findings } = checkLibrary([...standing, { path, text }]);
  return findings.filter((one) => one.severity === 'error' && one.file === path).map(({ check, message }) => `${check}: ${message}`);
}

describe.each([...new Set(SLIPS.map(({ file }) => file))])('%s', (file) => {
  const text = read(`procedures/${file}.md`);
  const own = SLIPS.filter((slip) => slip.file === file);

  test('is sound as it stands, and wholly read', () => {
    expect(errorsOf(file, text)).toEqual([]);
  });

  test('no slip passes in silence', { timeout: 300_000 }, () => {
    const silent = own.filter(({ from, to }) => {
      expect(text, from).toContain(from);
      return errorsOf(file, numbered(text.replace(from, () => to))).length === 0;
    });
    expect(silent.map(({ why }) => why)).toEqual(own.map(({ why }) => why).filter((why) => PASSES.includes(why)));
  });
});
