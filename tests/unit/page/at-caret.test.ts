/** Which findings, steps and names the caret stands at, and which finding comes next. */
import { describe, expect, test } from 'vitest';
import type { Margin } from '../../../procedures-schema/assist/index.ts';
import type { Finding } from '../../../procedures-schema/index.ts';
import { findingsAt, namesAt, nextStop, stepsAt, stopsOf } from '../../../renderer/write/at-caret.ts';

const TEXT = 'Oil the [bearng] and the [bearng].\nWait.\nTighten it to 9 Nm.\n';

/** Of the words given, by what is asked of it here. */
const found = (message: string, words: string, from = 0): Finding => {
  const start = TEXT.indexOf(words, from);
  return { message, span: { start, end: start + words.length } } as Finding;
};
const [LINE, FIRST, AGAIN, VALUE] = [
  found('line', 'Oil the [bearng] and the [bearng].'),
  found('first', '[bearng]'),
  found('again', '[bearng]', 12),
  found('value', '9 Nm'),
];
const said = (findings: readonly Finding[] | undefined) => findings?.map(({ message }) => message).join(', ');

describe('the next finding', () => {
  const stops = stopsOf([VALUE, AGAIN, FIRST, LINE, found('line too', 'Oil the')]);
  const from = (caret: number, which: 'next' | 'previous') => said(nextStop(stops, caret, which)?.findings);

  test('is the one after the caret, and those that begin at one place come together', () => {
    expect(from(FIRST.span.start - 1, 'next')).toBe('first');
    expect(from(FIRST.span.start, 'next')).toBe('again');
    expect(from(TEXT.length, 'next')).toBe('line, line too');
  });

  test('or the one before it, around the beginning', () => {
    expect(from(VALUE.span.start, 'previous')).toBe('again');
    expect(from(VALUE.span.start + 1, 'previous')).toBe('value');
    expect(from(0, 'previous')).toBe('value');
  });

  test('is none where nothing was found', () => expect(nextStop([], 0, 'next')).toBeUndefined());
});

describe('the finding at the caret', () => {
  const at = (caret: number) => said(findingsAt([LINE, FIRST, AGAIN, VALUE], caret, TEXT));

  test('is the closest one', () => {
    expect(at(FIRST.span.start)).toBe('first, line');
    expect(at(FIRST.span.end)).toBe('first, line');
    expect(at(FIRST.span.end + 1)).toBe('line');
  });

  test('or one that lies in its line', () => {
    expect(at(TEXT.indexOf('Tighten'))).toBe('value');
    expect(at(TEXT.indexOf('Wait') + 1)).toBe('');
  });

  test('or that of the line which was just ended', () => expect(at(TEXT.indexOf('Wait'))).toBe('line'));
});

describe('steps and names at the caret', () => {
  const step = (label: string, start: number, end: number, names: readonly string[]) => ({
    label,
    span: { start, end },
    settle: names.map((name) => ({ name, span: { start: end - 1, end } })),
  });
  const lines = [step('1', 0, 40, ['pin']), step('a', 10, 20, []), step('2', 41, 50, [])];
  const margin = { lines, settle: lines.flatMap(({ settle }) => settle) } as unknown as Margin;
  const names = (caret: number) => namesAt(margin, caret).map(({ name }) => name);

  test('the innermost step comes first', () => expect(stepsAt(margin, 10).map(({ label }) => label)).toEqual(['a', '1']));

  test('a name is that of the place, else of the step around it', () => {
    expect(names(40)).toEqual(['pin']);
    expect(names(15)).toEqual(['pin']);
    expect(names(45)).toEqual([]);
  });
});
