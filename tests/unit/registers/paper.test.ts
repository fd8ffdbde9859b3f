/** Paper as typed: names, sizes of one's own, and the bounds at, just under and just over. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readPaper, sizeOfPaper } from '../../../procedures-schema/index.ts';
import { guideProblems, problemsIn } from '../../support/registers.ts';

const read = (typed: string): string | undefined => {
  const found = readPaper(typed);
  return found === undefined ? undefined : 'paper' in found ? found.paper : found.refused;
};

describe('paper', () => {
  test.each([
    ['a4', 'a4'],
    ['Letter', 'letter'],
    ['160 x 230 mm', '160 x 230 mm'],
    ['160x230mm', '160 x 230 mm'],
    ['160 × 230 MM', '160 x 230 mm'],
    ['0160.50 x 230.0 mm', '160.5 x 230 mm'],
    ['6 x 9 in', '6 x 9 in'],
    ['5.5 X 8.5 in', '5.5 x 8.5 in'],
    ['120 x 170 mm', '120 x 170 mm'],
    ['300 x 440 mm', '300 x 440 mm'],
    ['200 x 200 mm', '200 x 200 mm'],
  ])('%s is %s', (typed, said) => expect(read(typed)).toBe(said));

  test.each(['', 'legal', '160 x 230', '160 230 mm', '16 x 23 cm', '1e3 x 2e3 mm', '160 x 230.1234 mm', '-160 x 230 mm', 'a4 x a5 mm'])(
    '"%s" is none',
    (typed) => expect(read(typed)).toBeUndefined(),
  );

  test.each([
    ['119.999 x 170 mm', 'too small'],
    ['120 x 169.999 mm', 'too small'],
    ['300.001 x 440 mm', 'too large'],
    ['300 x 440.001 mm', 'too large'],
    ['4 x 6 in', 'too small'],
    ['0 x 0 mm', 'too small'],
    ['230 x 160 mm', 'lies on its side'],
  ])('%s is refused: %s', (typed, why) => expect(read(typed)).toContain(why));

  test('a size read is read again as itself, and inches are those of 25.4 mm', () => {
    fc.assert(
      fc.property(fc.integer({ min: 120_000, max: 300_000 }), fc.integer({ min: 300_000, max: 440_000 }), (width, height) => {
        const paper = read(`${width / 1000} x ${height / 1000} mm`) as 'a4';
        expect(read(paper)).toBe(paper);
        expect(sizeOfPaper(paper)).toEqual({ width: width * 10, height: height * 10 });
      }),
    );
    expect(sizeOfPaper('8.5 x 11 in')).toEqual(sizeOfPaper('letter'));
    expect(sizeOfPaper('210 x 297 mm')).toEqual(sizeOfPaper('a4'));
  });

  test('in library.yaml and in the head of a guide, with the reason where it cannot be', () => {
    const house = (paper: string) => problemsIn({ 'library.yaml': `publisher: Test Works\npaper: ${paper}\n` });
    expect(house('160 x 230 mm')).toEqual([]);
    expect(house('A5')).toEqual([]);
    expect(house('50 x 80 mm')).toEqual([
      '2:8 Paper of 50 x 80 mm is too small: a line of it has no room for words that can be read. The smallest is 120 x 170 mm. -> a size from 120 x 170 mm to 300 x 440 mm',
    ]);
    const guide = (paper: string) => guideProblems(`id: G-1\ntitle: Hoists\nrevision: "A"\ndate: 2026-03-02\npaper: ${paper}\n`);
    expect(guide('6 x 9 in')).toEqual([]);
    expect(guide('9 x 6 in')[0]).toContain('lies on its side');
    expect(guide('6 x 9')).toEqual(['5:8 "paper" cannot be "6 x 9". -> a4, letter, a5 or 160 x 230 mm']);
  });
});
