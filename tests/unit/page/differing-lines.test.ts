/** Two texts line by line: each piece says what the one has instead of the other, and together they lead from one text to the other. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { differingLines } from '../../../renderer/state/differing-lines.ts';

const told = (before: string, after: string): string =>
  differingLines(before, after)
    .map((one) => `${one.line}: -${one.before.join('|')} +${one.after.join('|')}`)
    .join('; ');

test('a line that was changed, one that is new and one that is gone', () => {
  expect(told('a\nb\nc', 'a\nB\nc')).toBe('2: -b +B');
  expect(told('a\nc', 'a\nb\nc')).toBe('2: - +b');
  expect(told('a\nb\nc', 'a\nc')).toBe('2: -b +');
  expect(told('a\nb\nc\nd\ne', 'a\nB\nc\ne\nf')).toBe('2: -b +B; 4: -d +; 5: - +f');
});

test('equal texts have none, and line ends alone are no difference', () => {
  expect(told('a\nb', 'a\nb')).toBe('');
  expect(told('a\r\nb\r\n', 'a\nb\n')).toBe('');
});

test('the pieces put in place of each other make the one text out of the other', () => {
  const text = fc.array(fc.constantFrom('a', 'b', 'c', ''), { maxLength: 12 }).map((lines) => lines.join('\n'));
  fc.assert(
    fc.property(text, text, (before, after) => {
      const lines = after.split('\n');
      for (const one of [...differingLines(before, after)].reverse()) lines.splice(one.line - 1, one.after.length, ...one.before);
      expect(lines.join('\n')).toBe(before);
    }),
  );
});
