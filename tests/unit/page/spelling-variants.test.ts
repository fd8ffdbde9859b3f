/** British and American spelling beside the one dictionary: what each house may write, and that no slip is made right. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { instead, isRight } from '../../../renderer/spelling/judging.ts';
import { britishOf, isBritish, spellingOf } from '../../../renderer/spelling/variants.ts';

const load = createRequire(import.meta.url);
const nspell = load('nspell') as (aff: Buffer, dic: Buffer) => { correct(word: string): boolean };
const folder = load.resolve('dictionary-en').replace(/index\.js$/, '');
const dictionary = nspell(readFileSync(`${folder}index.aff`), readFileSync(`${folder}index.dic`));
const has = (word: string): boolean => dictionary.correct(word);
const words = (text: string): readonly string[] => text.trim().split(/\s+/);

// Common English usage, from memory, no source.
const PAIRED: readonly (readonly [string, string])[] = words(`
  colour/color colours/colors coloured/colored colourless/colorless discoloured/discolored neighbours/neighbors vapour/vapor odourless/odorless
  labour/labor armoured/armored harbour/harbor behaviour/behavior rigour/rigor
  centre/center centres/centers centred/centered centring/centering fibre/fiber litre/liter theatre/theater calibre/caliber lustre/luster
  millimetre/millimeter kilometres/kilometers
  grey/gray greyish/grayish mould/mold mouldings/moldings plough/plow aluminium/aluminum sulphur/sulfur sulphate/sulfate
  defence/defense offence/offense ageing/aging skilful/skillful fulfil/fulfill sceptical/skeptical woollen/woolen
  manoeuvre/maneuver manoeuvred/maneuvered manoeuvring/maneuvering carburettor/carburetor marvellous/marvelous
  labelled/labeled labelling/labeling levelled/leveled travelled/traveled signalling/signaling cancelled/canceled fuelled/fueled dialling/dialing
  enamelled/enameled channelled/channeled modelling/modeling
  analyse/analyze analysed/analyzed paralysed/paralyzed Colour/Color GREY/GRAY`).map((pair) => pair.split('/') as [string, string]);

test.each([
  ['en', 'both'],
  ['en-AU', 'both'],
  ['de', 'both'],
  ['en-GB', 'british'],
  ['en-gb', 'british'],
  ['en-Latn-GB', 'british'],
  ['en-US', 'american'],
])('%s writes %s', (language, spelling) => {
  expect(spellingOf(language)).toBe(spelling);
});

describe('each pair', () => {
  test.each(PAIRED)('%s is British for %s', (british, american) => {
    expect(isBritish(british, has)).toBe(true);
    expect(britishOf(american, has)).toBe(british);
  });
});

test('words that have no American twin of their own kind are right too', () => {
  for (const word of words(
    'organise organised organisation minimise pressurised depressurising metre metres tyre tyres kerb programme draught practise licence leveller counsellor storey catalogue neighbouring',
  ))
    expect(isBritish(word, has), word).toBe(true);
});

test('what is written so on both sides is called wrong on neither', () => {
  for (const word of words(
    `organize pressurized meter meters micrometer tire tired tires curb check checked checks draft program story stories license practice motor
     laboratory honorary humorous vigorous error mirror floor door indoor controlled installed filled failed ruled detailed revealed paralleled sealed cooled
     sizing prized order filter water after enter molten`,
  ))
    expect(`${word} ${britishOf(word, has)}`).toBe(`${word} undefined`);
});

test('no slip is made right', () => {
  for (const word of words(
    'sise capsise rulled failled schedulled coulour collour flour-ed centrre motour doour mettre litrer greyd tyrre organisse detailled revealled platfrom neighbor metter',
  ))
    expect(`${word} ${isBritish(word, has)}`).toBe(`${word} false`);
});

describe('a house', () => {
  const judge = (spelling: 'british' | 'american' | 'both') => ({ has, own: (word: string) => word === 'color', spelling });
  test.each([
    ['colour', true, false, true],
    ['Colours', true, false, true],
    ['gray', false, true, true],
    ['organize', true, true, true],
    ['organise', true, false, true],
    ['labeled', false, true, true],
    ['tire', true, true, true],
    ['vapour’s', true, false, true],
    ['platfrom', false, false, false],
    // A name of the library itself.
    ['color', true, true, true],
  ])('%s is right for a British one: %s, an American: %s, one that says neither: %s', (word, british, american, both) => {
    expect([isRight(word, judge('british')), isRight(word, judge('american')), isRight(word, judge('both'))]).toEqual([
      british,
      american,
      both,
    ]);
  });

  test('is offered its own spelling', () => {
    expect(instead('colur', ['color', 'colder'], judge('british'))).toEqual(['colour', 'colder']);
    expect(instead('colur', ['color', 'colder'], judge('both'))).toEqual(['color', 'colour', 'colder']);
    expect(instead('colur', ['color'], judge('american'))).toEqual(['color']);
    expect(instead('labeled', ['labelled'], judge('british'))[0]).toBe('labelled');
  });
});
