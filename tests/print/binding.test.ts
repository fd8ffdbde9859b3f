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
