/** Bound edge and sides of a procedure, a guide and a checklist, as chosen: where the wider margin stands on each page, and that a booklet has it at the fold. */
import { beforeAll, describe, expect, test } from 'vitest';
import { foldedChoice, guideBook, type PrintChoice, procedureBook, shortProcedure } from '../../publishing/index.ts';
import { layoutBook, newFontSource, type PlacedBook, type Shaper } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let shaper: Shaper;
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
});

const facts = () => it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as Parameters<typeof procedureBook>[0];
const procedure = (choice: PrintChoice) => layoutBook(procedureBook(facts(), it.input, choice), shaper);
const checklist = (choice: PrintChoice) => layoutBook(shortProcedure(facts(), it.input, choice), shaper);
const guide = (choice: PrintChoice) =>
  layoutBook(guideBook(it.report.facts.guides[0] as Parameters<typeof guideBook>[0], it.input, choice), shaper);

/** Which margin of each page is the widest of its direction: L, R, or T and F where head and foot differ from the other side; = where none is. */
function wider({ pages }: PlacedBook): string {
  const upright = pages.filter(({ turned }) => !turned);
  const tops = upright.map(({ geometry }) => geometry.body.y);
  return upright
    .map(({ geometry: { width, body } }) => {
      const [left, right] = [body.x, width - body.x - body.width];
      // Where the width is odd one of two equal margins is a millipoint wider.
      if (Math.abs(left - right) > 1) return left > right ? 'L' : 'R';
      return Math.max(...tops) === Math.min(...tops) ? '=' : body.y === Math.max(...tops) ? 'T' : 'F';
    })
    .join('');
}

describe.each([
  ['a procedure', procedure],
  ['a checklist', checklist],
  ['a guide', guide],
] as const)('%s', (_, made) => {
  test.each([
    [{ binding: 'left', duplex: false }, /^L+$/],
    [{ binding: 'left', duplex: true }, /^(?:LR)+L?$/],
    [{ binding: 'top', duplex: true }, /^(?:TF)+T?$/],
    [{ binding: 'none', duplex: true }, /^=+$/],
    [{ binding: 'none', duplex: false }, /^=+$/],
  ] as const)('%j', (choice, margins) => expect(wider(made(choice))).toMatch(margins));

  test('has no blank page where it is printed on one side', () => {
    expect(made({ duplex: false }).pages.some(({ blank }) => blank)).toBe(false);
  });

  test('as a booklet has the wider margin at the fold, whatever is chosen', () => {
    const choice = foldedChoice({ binding: 'top', duplex: false, large: false }, { kind: 'booklet', sheet: 'a4' });
    expect(wider(made(choice))).toMatch(/^(?:LR)+L?$/);
  });
});

test('what is not chosen stays as document and form say', () => {
  expect(wider(procedure({}))).toMatch(/^L+$/);
  expect(wider(checklist({}))).toMatch(/^(?:LR)+L?$/);
  expect(wider(guide({}))).toMatch(/^(?:LR)+L?$/);
  expect(foldedChoice({ binding: 'top' }, { kind: 'two-up', sheet: 'a4' })).toEqual({ binding: 'top' });
  expect(foldedChoice({ binding: 'top' }, undefined)).toEqual({ binding: 'top' });
});

describe('margins by number, in millimetres', () => {
  const inMillimetres = (value: number): number => Math.round((value * 254) / 7200) / 100;
  /** Left, right, head and foot of the text on a front and, where there is one, on a back. */
  const margins = (choice: PrintChoice): readonly (readonly number[])[] => {
    const seen = guide(choice)
      .pages.filter(({ turned }) => !turned)
      .map(({ geometry: { width, height, body } }) =>
        [body.x, width - body.x - body.width, body.y, height - body.y - body.height].map(inMillimetres),
      );
    return [...new Map(seen.map((one) => [one.join(), one])).values()];
  };

  test.each([
    // The 43 mm that a bound page gives away are shared; 12 mm more stand where a pad is bound: at the head of a front, at the foot of its back.
    [
      'a4',
      { binding: 'top', duplex: true },
      [
        [21.5, 21.5, 37, 24],
        [21.5, 21.5, 25, 36],
      ],
    ],
    ['a4', { binding: 'top', duplex: false }, [[21.5, 21.5, 37, 24]]],
    ['a4', { binding: 'none', duplex: true }, [[21.5, 21.5, 25, 24]]],
    [
      'a4',
      { binding: 'left', duplex: true },
      [
        [25, 18, 25, 24],
        [18, 25, 25, 24],
      ],
    ],
    ['letter', { binding: 'top', duplex: false }, [[22.2, 22.2, 37, 23]]],
    ['letter', { binding: 'none', duplex: false }, [[22.2, 22.2, 25, 23]]],
    [
      'a5',
      { binding: 'top', duplex: true },
      [
        [16, 16, 35.5, 19],
        [16, 16, 20, 34.5],
      ],
    ],
    ['a5', { binding: 'none', duplex: true }, [[16, 16, 20, 19]]],
  ] as const)('%s %j', (paper, choice, wanted) => {
    expect(margins({ ...choice, paper })).toEqual(wanted);
  });
});
