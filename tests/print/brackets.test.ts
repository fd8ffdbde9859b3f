/** Round brackets on paper: none stand inside others, and neither a second value nor a page number is lost over it. On the sample guides and on made-up words. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { settingAt } from '../../publishing/compose/second-value.ts';
import { guideBook } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource } from '../../publishing/layout/index.ts';
import { blockTexts } from '../support/placed-text.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let printed: readonly string[];
beforeAll(async () => {
  it = await sample();
  const { shaper } = newFontSource(it.fonts);
  printed = it.report.facts.guides.flatMap((guide) =>
    blockTexts(drawBook(layoutBook(guideBook(guide, it.input), shaper))).map(({ text }) => text.replace(/\s+/g, ' ')),
  );
});

/** How many round brackets stand open at once, at most. */
function deepest(text: string): number {
  let open = 0;
  let most = 0;
  for (const letter of text) {
    if (letter === '(') open += 1;
    else if (letter === ')' && open > 0) open -= 1;
    most = Math.max(most, open);
  }
  return most;
}

describe('in the sample guides', () => {
  test('a callout whose figure is overleaf has the page in its own brackets', () => {
    const paged = printed.filter((text) => /\(\d{1,2}, page \d+\)/.test(text));
    expect(paged.length).toBeGreaterThan(5);
    expect(printed.filter((text) => /\(\d{1,2}\) \(page/.test(text))).toEqual([]);
  });

  test('a second value inside brackets follows a semicolon', () => {
    const [press] = printed.filter((text) => text.startsWith('The press has five sources of energy'));
    expect(press).toMatch(/steam \(6 bar; 87 psi\), .*\(160 °C; 320 °F\), air \(7 bar; 102 psi\)/);
  });

  test('no round bracket stands inside another', () => {
    expect(printed.filter((text) => /\([^()]*\(/.test(text))).toEqual([]);
  });
});

describe('a second value', () => {
  const set = (text: string): string => {
    let out = text;
    // From the back, so that places before stay what they are.
    for (const match of [...text.matchAll(/ \[([^\]]*)\]/g)].reverse()) {
      const { before, after } = settingAt(text, match.index + 1);
      out = out.slice(0, match.index) + before + match[1] + after + out.slice(match.index + match[0].length);
    }
    return out;
  };
  test.each([
    ['a gap of 0.5 mm [0.020 in] at the edge', 'a gap of 0.5 mm (0.020 in) at the edge'],
    ['steam (6 bar [87 psi]) and air', 'steam (6 bar; 87 psi) and air'],
    ['(as shown) 6 bar [87 psi]', '(as shown) 6 bar (87 psi)'],
    // Which belongs to which is told only by brackets here.
    ['two circuits (6 bar [87 psi] and 7 bar [102 psi])', 'two circuits (6 bar [87 psi] and 7 bar [102 psi])'],
    // Brackets that lettered points close and nobody opened open nothing.
    ['a) turn by 5 mm [0.2 in]', 'a) turn by 5 mm (0.2 in)'],
  ])('%s', (typed, shown) => expect(set(typed)).toBe(shown));

  test('never opens round brackets in round brackets, and is never lost', () => {
    const piece = fc.constantFrom('steam ', '(', ') ', '6 bar', ' [87 psi]', ' and ', '7 mm', ' [0.28 in]');
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 14 }), (pieces) => {
        const typed = pieces.join('');
        const shown = set(typed);
        expect(deepest(shown)).toBeLessThanOrEqual(Math.max(deepest(typed), 1));
        expect(shown.match(/87 psi|0\.28 in/g)).toEqual(typed.match(/87 psi|0\.28 in/g));
      }),
      { seed: 5 },
    );
  });
});
