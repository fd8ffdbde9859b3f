/** Places where a line may end, told without the library, against the library's reading of UAX #14 (package linebreak) on random texts. */
import fc from 'fast-check';
import LineBreaker from 'linebreak';
import { describe, expect, test } from 'vitest';
import { breakPlaces, isPlainText } from '../../../publishing/layout/break-places.ts';

const told = (text: string): number[] => {
  const places: number[] = [];
  breakPlaces(text, (at) => places.push(at));
  return places;
};
const library = (text: string): number[] => {
  const places: number[] = [];
  const breaker = new LineBreaker(text);
  for (let next = breaker.nextBreak(); next !== null; next = breaker.nextBreak()) places.push(next.position);
  return places;
};

describe('places where a line may end', () => {
  test('are the same for plain words', () => {
    const word = fc
      .tuple(
        fc.constantFrom('', '', '('),
        fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9.,:;]{0,8}(x’s)?$/),
        fc.constantFrom('', '', ')', '.', '),', ').'),
      )
      .map((parts) => parts.join(''));
    const texts = fc.array(word, { minLength: 1, maxLength: 6 }).map((words) => words.join(' '));
    let plain = 0;
    fc.assert(
      fc.property(texts, (text) => {
        if (isPlainText(text)) plain += 1;
        expect(told(text)).toEqual(library(text));
      }),
      { numRuns: 3000 },
    );
    // Otherwise nothing would have been compared.
    expect(plain).toBeGreaterThan(1000);
  });

  test('are the same for any mix of what plain text is made of', () => {
    const letter = fc.constantFrom(...'aZ09 .,:;()’- /%');
    fc.assert(
      fc.property(fc.string({ unit: letter, maxLength: 14 }), (text) => {
        expect(told(text)).toEqual(library(text));
      }),
      { numRuns: 20_000 },
    );
  });

  test.each([
    ['Lock and tag the main isolator.', true],
    ['Set 24.5 bar (see step 3), then wait.', true],
    ['the machine’s guard', true],
    ['re-fit', false],
    ['10 %', false],
    ['two  spaces', false],
    ['ends with a space ', false],
    ['the guards’ (both)', false],
    ['f(x)g', false],
    ['Öl', false],
  ])('%j is plain: %s', (text, plain) => {
    expect(isPlainText(text)).toBe(plain);
  });
});
