/** Figures that come, change and go while a library is edited: what is found is what a check of the whole finds, and only what shows them is looked at. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkLibrary, type FigureFacts, figureFacts, newEngine } from '../../../procedures-schema/index.ts';
import { expandCase } from '../../support/cases.ts';

const drawing = (...words: readonly string[]): FigureFacts =>
  figureFacts({ kind: 'svg', source: `<svg>${words.map((one) => `<text>${one}</text>`).join('')}</svg>` });
const STATES: readonly FigureFacts[] = [
  drawing('1', '2'),
  drawing('1', '2', '3'),
  drawing(),
  figureFacts({ kind: 'svg', source: '<svg>' }),
];

const ARM = 'figures/arm.svg';
const PIN = 'figures/pin.svg';
const shows = (figure: string, number: number) =>
  expandCase({ name: '', finds: 0, work: `#. Clean the [scraper] (${number}).\n\n   ![Scraper 1 and arm 2](${figure})` }).files;
const files = shows(ARM, 3);
const other =
  shows(PIN, 2)
    .find(({ path }) => path.startsWith('procedures/'))
    ?.text.replaceAll('FX-100', 'FX-200') ?? '';
const texts = [...files, { path: 'procedures/FX-200.md', text: other }];
const FIRST = 'procedures/FX-100.md';

const about = (findings: readonly { readonly check: string; readonly file: string; readonly message: string }[]): readonly string[] =>
  findings
    .filter(({ check }) => /^(figure|callout)-/.test(check))
    .map(({ file, check, message }) => `${file} ${check} ${message}`)
    .sort();

const procedures = (findings: ReadonlyMap<string, unknown>): readonly string[] =>
  [...findings.keys()].filter((path) => path.startsWith('procedures/'));

describe('a figure that changed', () => {
  test('is held against what shows it, and nothing else is looked at', () => {
    const engine = newEngine();
    engine.apply([...texts, { path: ARM, present: true, figure: drawing('1', '2') }, { path: PIN, present: true }]);
    expect(about(engine.report().findings)).toEqual([`${FIRST} callout-there The figure that (3) points into shows no 3.`]);
    const { findings } = engine.apply([{ path: ARM, present: true, figure: drawing('1', '2', '3') }]);
    expect(procedures(findings)).toEqual([FIRST]);
    expect(about(engine.report().findings)).toEqual([]);
    // The same again is no news.
    expect(procedures(engine.apply([{ path: ARM, present: true, figure: drawing('1', '2', '3') }]).findings)).toEqual([]);
    expect(about([...engine.apply([{ path: ARM, gone: true }]).findings.values()].flat())).toEqual([
      `${FIRST} callout-there The figure that (3) points into names no 3.`,
      `${FIRST} figure-there The figure ${ARM} is not in the library.`,
    ]);
  });

  test('what was known of one that went is forgotten', () => {
    const engine = newEngine();
    engine.apply([...texts, { path: ARM, present: true, figure: STATES[3] as FigureFacts }]);
    engine.apply([{ path: ARM, gone: true }]);
    engine.apply([{ path: ARM, present: true }]);
    expect(about(engine.report().findings).filter((one) => one.startsWith(FIRST))).toEqual([
      `${FIRST} callout-there The figure that (3) points into names no 3.`,
    ]);
  });

  test('after any edits it is as if the library had been checked whole', () => {
    const edit = fc.record({ figure: fc.constantFrom(ARM, PIN), state: fc.integer({ min: -2, max: STATES.length - 1 }) });
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 8 }), (edits) => {
        const engine = newEngine();
        const figures = new Map<string, FigureFacts>();
        const paths = new Set(texts.map(({ path }) => path));
        engine.apply(texts);
        for (const { figure, state } of edits) {
          const facts = STATES[state];
          if (state === -1) {
            paths.delete(figure);
            figures.delete(figure);
            engine.apply([{ path: figure, gone: true }]);
          } else {
            paths.add(figure);
            if (facts) figures.set(figure, facts);
            engine.apply([{ path: figure, present: true, ...(facts ? { figure: facts } : {}) }]);
          }
          expect(about(engine.report().findings)).toEqual(about(checkLibrary(texts, [...paths], { figures }).findings));
        }
      }),
      { numRuns: 25 },
    );
  });
});
