/**
 * Names found in sentences and in brackets. Source: format rule F3 of the project for brackets, ambiguity and isolation points;
 * plurals from memory of English spelling, no source.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { foldWords, nearestNames, type ThingKind } from '../../../procedures-schema/registers/index.ts';
import { found, namesOf } from '../../support/registers.ts';

const FILES = {
  'registers/equipment.yaml': `families:
  winch:
    also: [hoist unit]
    energy:
      supply: {kind: electrical, size: 400 V, isolate: {supply isolator: off}}
      brake air: {kind: pneumatic, size: 6 bar, isolate: {air cock: shut}}
    controls: {up button: {also: [raise button]}}
    covers: {drum guard: {}, brake box: {}}
    parts:
      drum: {}
      drum bearing: {}
      pulley: {}
      brake: {}
      pin: {}
      blade knife: {}
    fasteners:
      guard screws: {of: drum guard}
      motor bolt: {count: 4}
  trolley:
    energy: {}
    controls: {up button: {}}
    parts: {wheel: {}, pin: {}}
models:
  W-5: {family: winch, also: [five-tonne winch]}
  T-2: {family: trolley}
`,
  'registers/tools.yaml': 'tools:\n  24 mm open wrench: {}\n  brake: {kind: press brake}\n  feeler gauges: {also: [feelers]}\n',
  'registers/documents.yaml': 'documents:\n  WD-7: {title: Rope tables, ask: the works, also: [rope tables]}\n',
};
const FRONT = 'id: W-1\nmodels: [W-5]\nroles: [second person]\nmeasurements:\n  drum gap: {quantity: length}\n';
const names = namesOf(FILES, FRONT, '## Grease the drum\n\n1. Wait.\n\n## Background\n\nIt turns.\n', ['W-1', 'W-2']);

/** One line a case: a sentence, and what is found in it. */
const sentences: readonly (readonly [sentence: string, found: readonly string[]])[] = [
  ['Stop the winch with the up button.', ['winch (machine)', 'up button (control)']],
  ['Press the raise button of the hoist unit.', ['up button (control)', 'winch (machine)']],
  // the longest wins
  ['Grease the drum bearing, then the drum.', ['drum bearing (part)', 'drum (part)']],
  ['Take the drum guard off the drum.', ['drum guard (cover)', 'drum (part)']],
  // plurals of the writer, and a registered plural in the singular
  ['Undo the four motor bolts.', ['motor bolt (fastener) +']],
  ['Clean the pulleys and the pins.', ['pulley (part) +', 'pin (part) +']],
  ['Change both blade knives.', ['blade knife (part) +']],
  ['Undo the guard screws.', ['guard screws (fastener)']],
  ['Undo one guard screw.', ['guard screws (fastener)']],
  // spelling that does not matter
  ['Undo the MOTOR  BOLT.', ['motor bolt (fastener)']],
  ['Use the feelers or the feeler gauge.', ['feeler gauges (tool)', 'feeler gauges (tool)']],
  // two kinds of one name
  ['Press the brake.', ['brake (part) | brake (tool)']],
  ['Press the brakes.', ['brake (part) | brake (tool) +']],
  // front matter, documents, models
  ['The second person reads the drum gap.', ['second person (role)', 'drum gap (measurement)']],
  ['See WD-7 for the five-tonne winch W-5.', ['WD-7 (document)', 'W-5 (model)', 'W-5 (model)']],
  ['Go on with W-2.', ['W-2 (procedure)']],
  // near misses: part of a word, a name that goes on, another family
  ['The pinion and the drummer.', []],
  ['Motor and bolt.', []],
  ['Turn the wheel.', []],
  // a section is named in brackets only
  ['Grease the drum.', ['drum (part)']],
];

test.each(sentences)('%s', (sentence, expected) => {
  expect(found(names, sentence)).toEqual(expected);
});

describe('brackets', () => {
  const lookup = (content: string) => names.lookup(content).map((thing) => `${thing.name} (${thing.kind})`);
  test('the whole content counts', () => {
    expect(lookup('drum')).toEqual(['drum (part)']);
    expect(lookup('the drum')).toEqual([]);
    expect(lookup('Drum\u00a0 Guard')).toEqual(['drum guard (cover)']);
    expect(lookup('motor bolts')).toEqual(['motor bolt (fastener)']);
    expect(lookup('24 mm open wrench')).toEqual(['24 mm open wrench (tool)']);
    expect(lookup('rope tables')).toEqual(['WD-7 (document)']);
  });
  test('section titles, but not of sections of prose', () => {
    expect(lookup('Grease the drum')).toEqual(['Grease the drum (section)']);
    expect(lookup('Background')).toEqual([]);
  });
  test('every thing of a name', () => {
    expect(lookup('brake')).toEqual(['brake (part)', 'brake (tool)']);
  });
});

test('what two families have under one name and kind is one thing', () => {
  const both = namesOf(FILES, FRONT.replace('[W-5]', '[W-5, T-2]'));
  expect(found(both, 'Press the up button and pull the pin out of the wheel.')).toEqual([
    'up button (control)',
    'pin (part)',
    'wheel (part)',
  ]);
});

describe('nearest names', () => {
  test('of any kind but isolation points', () => {
    expect(names.nearest('drum gard')).toEqual(['drum guard', 'drum gap']);
    expect(names.nearest('supply isolater')).toEqual([]);
    expect(names.nearest('air cok')).toEqual([]);
  });
  test('that end in a word, of the kinds asked for', () => {
    const ending = (name: string, ...kinds: ThingKind[]) => names.ending(name, kinds).map((thing) => thing.name);
    expect(ending('guard', 'cover')).toEqual(['drum guard']);
    expect(ending('guards', 'cover', 'part')).toEqual(['drum guard']);
    expect(ending('guard', 'part')).toEqual([]);
    expect(ending('isolator', 'point')).toEqual(['supply isolator']);
    expect(ending('ard', 'cover')).toEqual([]);
    expect(ending('', 'cover')).toEqual([]);
  });
  test('of one kind', () => {
    expect(names.nearest('brak', ['tool'])).toEqual(['brake']);
    expect(names.nearest('drum gard', ['part'])).toEqual([]);
  });
  test('at, under and over the limit: one slip for every three letters, a swap counts once', () => {
    expect(nearestNames('lever', ['lever arm', 'levre', 'lebxr', 'loxes'])).toEqual(['levre']);
    expect(nearestNames('covers', ['cobxrs', 'cobxss'])).toEqual(['cobxrs']);
    expect(nearestNames('abcd', ['bacd'])).toEqual(['bacd']);
  });
  test('the order is by distance, then by code units; never more than asked for', () => {
    expect(nearestNames('cover', ['coverb', 'covera', 'cover', 'coves'], 3)).toEqual(['cover', 'covera', 'coverb']);
  });
});

test('the version differs when a name does, and only then', () => {
  const again = namesOf(FILES, FRONT, '## Grease the drum\n\n1. Wait.\n', ['W-1', 'W-2']);
  expect(again.version).toBe(names.version);
  const other = namesOf({ ...FILES, 'registers/tools.yaml': FILES['registers/tools.yaml'].replace('feelers', 'blades') }, FRONT);
  expect(other.version).not.toBe(names.version);
});

// Source: the definition of the words a sentence is matched by, in registers/words.ts.
test('words of any text stand where they say, in order', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 60 }), (text) => {
      let last = 0;
      for (const { at, end, word } of foldWords(text)) {
        expect(at).toBeGreaterThanOrEqual(last);
        expect(end).toBeGreaterThan(at);
        expect(word).not.toMatch(/\s/);
        last = end;
      }
    }),
  );
});
