/**
 * Registers that do not agree with each other. Each row: a change to the fixture's registers that breaks one thing, and what is told.
 * Source of the cases: common practice, no source; "know the kind and size of the energy" is 29 CFR 1910.147(d)(1).
 */
import { expect, test } from 'vitest';
import { FIXTURE_REGISTERS } from '../../support/fixture.ts';
import { problemsIn, registersOf } from '../../support/registers.ts';

const EQUIPMENT = 'registers/equipment.yaml';

/** What is told when `from` in one of the fixture's files is `to`; the place is left out, it is tested once below. */
function told(file: string, from: string, to: string): readonly string[] {
  const text = FIXTURE_REGISTERS[file] ?? '';
  if (!text.includes(from)) throw new Error(`the fixture has no "${from}"`);
  return problemsIn({ ...FIXTURE_REGISTERS, [file]: text.replace(from, to) }).map((line) => line.replace(/^\S+ /, ''));
}

const rows: readonly (readonly [what: string, file: string, from: string, to: string, told: string])[] = [
  [
    'a zone endangered by an unknown source',
    EQUIPMENT,
    'endangered by: [supply, air,',
    'endangered by: [suply, air,',
    'The zone "drum bay" names an energy source "suply" that is not registered; did you mean "supply"? -> supply',
  ],
  [
    'a cover of an unknown zone',
    EQUIPMENT,
    'side guard: {zone: drum bay',
    'side guard: {zone: gearbox',
    'The cover "side guard" names a zone "gearbox" that is not registered. -> one of drum bay',
  ],
  [
    'a cover with unknown fasteners',
    EQUIPMENT,
    'fasteners: guard screws}',
    'fasteners: guard screw}',
    'The cover "side guard" names a fastener "guard screw" that is not registered; did you mean "guard screws"? -> guard screws',
  ],
  [
    'a fastener of an unknown part',
    EQUIPMENT,
    'of: scraper,',
    'of: scrapper,',
    'The fastener "scraper bolts" names a part or cover "scrapper" that is not registered; did you mean "scraper"? -> scraper',
  ],
  [
    'a part that holds an unknown source',
    EQUIPMENT,
    'air hose: {zone: drum bay,',
    'air hose: {zone: drum bay, holds: steam,',
    'The part "air hose" names an energy source "steam" that is not registered. -> one of air, drum weight, supply',
  ],
  [
    'a try-out with an unknown control',
    EQUIPMENT,
    'try out: start button',
    'try out: start buton',
    'The energy source "supply" names a control "start buton" that is not registered; did you mean "start button"? -> start button',
  ],
  [
    'a source shown by an unknown gauge',
    EQUIPMENT,
    'shown by: air gauge',
    'shown by: dial',
    'The energy source "air" names a gauge "dial" that is not registered. -> one of air gauge',
  ],
  [
    'a control that is off at no position of its own',
    EQUIPMENT,
    'positions: ["0", run], off: "0"',
    'positions: ["0", run], off: stop',
    'The control "speed knob" is off at "stop", but that is none of its positions. -> one of 0, run',
  ],
  [
    'a safe position that the point does not have',
    EQUIPMENT,
    '    controls:',
    '    points:\n      main isolator: {positions: [on, out]}\n    controls:',
    'The supply is safe with the main isolator "off", but that is none of its positions. -> one of on, out',
  ],
  [
    'an entry for a point under a name that is all but right',
    EQUIPMENT,
    '    controls:',
    '    points:\n      main isolater: {positions: [on, off]}\n    controls:',
    'No energy source of the drum mixer names the point "main isolater"; is "main isolator" the same point? -> one name for one point, here and under its sources',
  ],
  [
    'a name registered twice in one family',
    EQUIPMENT,
    'scraper: {zone: drum bay}',
    'scraper: {zone: drum bay, also: [start button]}',
    '"start button" is already a name of the control "start button" of the drum mixer; here it is a part too. -> a name that only one of them has',
  ],
  [
    'covers behind each other',
    EQUIPMENT,
    'side guard: {zone: drum bay,',
    'side guard: {zone: drum bay, behind: side guard,',
    'The cover "side guard" lies behind itself: side guard, behind side guard. -> an outermost cover that lies behind none',
  ],
  [
    'a model of an unknown family',
    EQUIPMENT,
    'DM-20: {family: drum mixer,',
    'DM-20: {family: drum mixr,',
    'The model "DM-20" names a family "drum mixr" that is not registered; did you mean "drum mixer"? -> drum mixer',
  ],
  [
    'a model with an unknown option',
    EQUIPMENT,
    'DM-20: {family: drum mixer,',
    'DM-20: {family: drum mixer, options: heater,',
    'The model "DM-20" names an option "heater" that is not registered. -> an option to be registered first',
  ],
  [
    'a thing fitted to an unknown model',
    EQUIPMENT,
    'air hose: {zone: drum bay,',
    'air hose: {zone: drum bay, only on: [DM-40],',
    'The part "air hose" names a model or option "DM-40" that is not registered; did you mean "DM-10"? -> DM-10',
  ],
  [
    'a return test that is all but one that is looked for',
    EQUIPMENT,
    'when disturbed: leak test',
    'when disturbed: leak tests',
    'The part "air hose" says "leak tests"; did you mean "leak test"? -> leak test',
  ],
  [
    'a kind of tool that is all but one that means something',
    'registers/tools.yaml',
    'kind: torque wrench',
    'kind: torqe wrench',
    'The tool "torque wrench" says "torqe wrench"; did you mean "torque wrench"? -> torque wrench',
  ],
  [
    'gloves that nobody has',
    'registers/consumables.yaml',
    'needs: [work gloves]',
    'needs: [rubber gloves]',
    'The consumable "degreaser" names a piece of protective equipment "rubber gloves" that is not registered. -> one of safety glasses, work gloves',
  ],
  [
    'a kit that renews an unknown part',
    'registers/parts.yaml',
    'renews: scraper',
    'renews: scrapers blade',
    'The replacement part "scraper blade kit" names a part "scrapers blade" that is not registered. -> one of air gauge, air hose, air valve, drum pin, dump valve, guard screws, main isolator, scraper, scraper bolts, side guard',
  ],
  [
    'a symptom of an unknown family',
    'registers/symptoms.yaml',
    'family: drum mixer',
    'family: drum mixxer',
    'The symptom "drum scrapes" names a family "drum mixxer" that is not registered; did you mean "drum mixer"? -> drum mixer',
  ],
  [
    'a symptom tried on an unknown model',
    'registers/symptoms.yaml',
    'procedures: [FX-100]',
    'procedures: [{do: FX-100, models: [DM-11]}]',
    'The symptom "drum scrapes" names a model "DM-11" that is not registered; did you mean "DM-10"? -> DM-10',
  ],
  [
    'a pattern of document numbers that is none',
    'library.yaml',
    '"FX-\\\\d{3}"',
    '"FX-(\\\\d{3}"',
    '"document numbers" is not a regular expression that can be read: "FX-(\\d{3}". -> a pattern such as OM-\\d{4}, with every bracket closed',
  ],
];

test.each(rows)('%s', (_, file, from, to, message) => {
  expect(told(file, from, to)).toEqual([message]);
});

/** Near misses: other spellings that people use for a name that is registered. */
const fine: readonly (readonly [what: string, file: string, from: string, to: string])[] = [
  ['capital letters', EQUIPMENT, 'of: side guard', 'of: Side Guard'],
  ['an alias', EQUIPMENT, 'DM-20: {family: drum mixer', 'DM-20: {family: mixer'],
  [
    'a point that is an ordinary valve',
    EQUIPMENT,
    '    controls:',
    '    points:\n      rinse cock: {positions: [open, shut]}\n    controls:',
  ],
  ['a safe position in capitals', EQUIPMENT, '    controls:', '    points:\n      main isolator: {positions: [ON, OFF]}\n    controls:'],
  ['a kind of tool of the writer', 'registers/tools.yaml', 'kind: hand tool', 'kind: pullers'],
];

test.each(fine)('near miss: %s', (_, file, from, to) => {
  expect(told(file, from, to)).toEqual([]);
});

test('a reference in another spelling is settled to the registered name', () => {
  const registers = registersOf({
    ...FIXTURE_REGISTERS,
    [EQUIPMENT]: (FIXTURE_REGISTERS[EQUIPMENT] ?? '')
      .replace('of: side guard', 'of: Side  Guard')
      .replace('DM-20: {family: drum mixer', 'DM-20: {family: Mixer')
      .replace('starts: supply', 'starts: SUPPLY'),
  });
  expect(registers.families[0]?.fasteners[0]?.of).toBe('side guard');
  expect(registers.families[0]?.controls[0]?.starts).toEqual(['supply']);
  expect(registers.models[1]?.family).toBe('drum mixer');
});

test('the place is that of the wrong name', () => {
  const text = 'families:\n  hoist:\n    energy: {}\n    zones:\n      pit: {endangered by: [load]}\n';
  expect(problemsIn({ [EQUIPMENT]: text })).toEqual([
    '5:29 The zone "pit" names an energy source "load" that is not registered. -> an energy source to be registered first',
  ]);
});

/** Serial ranges at, under and over each bound. */
const serials: readonly (readonly [ranges: string, told: readonly string[]])[] = [
  ['[{to: 99}, {from: 100}]', []],
  ['[{from: 1, to: 99}, {from: 100, to: 199}, {from: 200}]', []],
  ['[{to: 99}, {from: 99}]', ['Serial ranges of K-1 overlap: 99 is in the range before as well. -> from: 100']],
  ['[{to: 99}, {from: 101}]', ['Serial ranges of K-1 leave a gap: 100 is in none. -> from: 100']],
  ['[{to: 99}, {from: 150}]', ['Serial ranges of K-1 leave a gap: 100 to 149 is in none. -> from: 100']],
  ['[{from: 9, to: 5}]', ['The serial range 9 to 5 of K-1 ends before it begins. -> from 5 to 9']],
  ['[{from: 1}, {from: 5}]', ['A serial range of K-1 that is not the last has no "to". -> the last serial number of the range']],
  ['[{to: 4}, {to: 9}]', ['A serial range of K-1 that is not the first has no "from". -> the first serial number of the range']],
];

test.each(serials)('serials %s', (ranges, expected) => {
  const files = { [EQUIPMENT]: `families: {hoist: {energy: {}}}\nmodels:\n  K-1: {family: hoist, serials: ${ranges}}\n` };
  expect(problemsIn(files).map((line) => line.replace(/^\S+ /, ''))).toEqual(expected);
});
