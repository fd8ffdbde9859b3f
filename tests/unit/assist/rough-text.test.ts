/** Half-written and damaged files: every help answers, with plain data and places inside the text. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  applyFileEdits,
  complete,
  definitionOf,
  formEdits,
  frontMatterForm,
  hover,
  insertFigure,
  insertMakeSafe,
  insertMeasurement,
  insertNotice,
  insertRestore,
  insertStep,
  marginOf,
  namedAt,
  overridesOf,
  rename,
  spellable,
  spellingWords,
  textsOf,
  usesOf,
} from '../../../procedures-schema/assist/index.ts';
import { applyEdits, checkLibrary } from '../../../procedures-schema/index.ts';
import { assistFixture, FX } from '../../support/assist.ts';
import { inserted } from '../../support/assist-insert.ts';

const RICH = {
  front: 'measurements:\n  edge gap: {quantity: length, at: at the scraper, with: feeler gauge, limits: table gap}\ntools: [feeler gauge]',
  body: '@SAFE\n## Work\n\n:::caution\nSharp. It can cut. Wear gloves.\n:::\n\n#. {#edge} Clean the [scraper] (1).\n   - If it fails, go to [step #edge].\n#. Measure the [edge gap] with the [feeler gauge], 5 mm [0.2 in].\n   a. Look at the [air hose].\n\n@CLOSE\n\n## Background\n\n| model | edge gap |\n|---|---|\n| DM-10 | 1 mm |\n\n{#gap}\n',
};

describe('damaged files', () => {
  const { texts } = assistFixture(RICH);
  const damage = fc.record({
    file: fc.constantFrom(...texts.map(({ path }) => path)),
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    length: fc.integer({ min: 0, max: 40 }),
    text: fc.constantFrom(
      '',
      '[',
      ']',
      '{',
      '}',
      ':::',
      '\n',
      '\r\n',
      '- ',
      '|',
      '---\n',
      ': ',
      '#',
      '\u0000',
      '\ud800',
      '"',
      '`',
      '## ',
      '1. ',
      '\t',
      '{#',
      '&a',
      '\ufeff',
    ),
  });
  test('whatever is cut out or put in', () => {
    fc.assert(
      fc.property(fc.array(damage, { minLength: 1, maxLength: 4 }), fc.double({ min: 0, max: 1, noNaN: true }), (damages, place) => {
        const files = new Map(texts.map(({ path, text }) => [path, text]));
        for (const { file, at, length, text } of damages) {
          const before = files.get(file) ?? '';
          const start = Math.floor(at * before.length);
          files.set(file, before.slice(0, start) + text + before.slice(start + length));
        }
        const { facts: library, findings } = checkLibrary([...files].map(([path, text]) => ({ path, text })));
        for (const [path] of files) {
          const text = textsOf(library).get(path) ?? '';
          const offset = Math.floor(place * text.length);
          for (const { replace } of complete(path, offset, text, library).items) {
            expect(replace.start <= offset && offset <= replace.end && replace.end <= text.length).toBe(true);
          }
          for (const { span } of hover(path, offset, library)) expect(span.start >= 0 && span.end <= text.length).toBe(true);
          const named = namedAt(path, offset, library);
          if (named) {
            usesOf(named, library);
            definitionOf(path, offset, library);
            const answer = rename(named, 'quern', library);
            if (answer.ok) expect(applyFileEdits(answer.files, textsOf(library)).ok).toBe(true);
          }
        }
        overridesOf(library);
        spellingWords(library);
        for (const facts of library.procedures) {
          expect(structuredClone(marginOf(facts, library))).toBeDefined();
          for (const { word, span } of spellable(facts)) expect(facts.source.text.slice(span.start, span.end)).toBe(word);
          for (const { key } of frontMatterForm(facts, library, findings).fields) {
            applyEdits(facts.source.text, formEdits(facts, key, 'x'));
            applyEdits(facts.source.text, formEdits(facts, key, undefined));
          }
          const offset = Math.floor(place * facts.source.text.length);
          for (const insertion of [
            insertNotice(facts, library, offset, { word: 'caution' }),
            insertFigure(facts, library, offset, { path: 'figures/a.svg', alt: 'A' }),
            insertStep(facts, library, offset, ['Look.']),
            insertMeasurement(facts, library, offset, { name: 'hum', quantity: 'sound', limits: { kind: 'sensed', pass: 'a', fail: 'b' } }),
            insertMakeSafe(facts, library, { title: 'Safe' }),
            insertRestore(facts, library, { title: 'Back' }),
          ])
            if (insertion.ok) expect(applyFileEdits(insertion.files, textsOf(library)).ok).toBe(true);
        }
      }),
      { numRuns: 120 },
    );
  });
});

describe('lines that end in CRLF', () => {
  const crlf = (text: string): string => text.replace(/\n/g, '\r\n');
  test('what is inserted is the same text with such lines', () => {
    const plain = assistFixture(RICH);
    const texts = plain.texts.map(({ path, text }) => ({ path, text: path === FX ? crlf(text) : text }));
    const report = checkLibrary(texts);
    const facts = report.facts.procedures[0];
    if (!facts) throw new Error('no procedure');
    const find = (text: string): number => text.indexOf('Measure the [edge gap]');
    const both = [
      [
        insertNotice(plain.facts, plain.library, find(plain.text), { word: 'caution', hazard: 'Hot' }),
        insertNotice(facts, report.facts, find(facts.source.text), { word: 'caution', hazard: 'Hot' }),
      ],
      [
        insertFigure(plain.facts, plain.library, find(plain.text), { path: 'figures/a.svg', alt: 'A' }),
        insertFigure(facts, report.facts, find(facts.source.text), { path: 'figures/a.svg', alt: 'A' }),
      ],
      [
        insertStep(plain.facts, plain.library, find(plain.text), ['Look.', '', 'More.']),
        insertStep(facts, report.facts, find(facts.source.text), ['Look.', '', 'More.']),
      ],
      [
        insertMeasurement(plain.facts, plain.library, find(plain.text), {
          name: 'hum',
          quantity: 'sound',
          limits: { kind: 'models', rows: [{ model: 'DM-10', lower: '', upper: '' }] },
        }),
        insertMeasurement(facts, report.facts, find(facts.source.text), {
          name: 'hum',
          quantity: 'sound',
          limits: { kind: 'models', rows: [{ model: 'DM-10', lower: '', upper: '' }] },
        }),
      ],
      [insertMakeSafe(plain.facts, plain.library, { title: 'Safe' }), insertMakeSafe(facts, report.facts, { title: 'Safe' })],
      [insertRestore(plain.facts, plain.library, { title: 'Back' }), insertRestore(facts, report.facts, { title: 'Back' })],
    ] as const;
    for (const [one, two] of both) {
      const expected = inserted(plain.report, FX, one).shown;
      expect(inserted(report, FX, two).shown).toBe(crlf(expected));
    }
    for (const [key, value] of [
      ['time', '1 h'],
      ['options', [{ name: 'heater' }]],
      ['tools', [{ name: 'torque wrench' }, { name: 'feeler gauge' }]],
      ['people', undefined],
    ] as const) {
      const edit = formEdits(facts, key, value);
      const lines = applyEdits(
        facts.source.text,
        edit.map((one) => ({ ...one, text: crlf(one.text.replace(/\r\n/g, '\n')) })),
      );
      expect(lines).toBe(crlf(applyEdits(plain.facts.source.text, formEdits(plain.facts, key, value))));
    }
  });
});
