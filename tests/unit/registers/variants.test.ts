/**
 * Which machines a procedure is for, and what each of them has. Source: semantics rule 1 of the project (a thing without a zone lies in
 * the whole machine; points with the sources they serve); common practice otherwise, no source.
 */
import { describe, expect, test } from 'vitest';
import { variantsFor } from '../../../procedures-schema/registers/index.ts';
import { headOf, machinesOf, registersOf } from '../../support/registers.ts';

const FILES = {
  'registers/equipment.yaml': `families:
  tunnel washer:
    energy:
      supply: {kind: electrical, size: 400 V, isolate: {main switch: off}, try out: start key, shown by: lamp}
      steam: {kind: steam, size: 8 bar, isolate: {steam valve: shut}, relieve: {drain: open}, only on: [steam heat]}
      water: {kind: hydraulic, size: 3 bar, relieve: {drain: open}}
    controls:
      start key: {starts: [supply, steam]}
    covers:
      lid: {zone: tank, fasteners: [lid screws, steam bolts]}
      lagging: {zone: jacket, only on: steam heat}
    zones:
      tank: {endangered by: [supply, steam, water], behind: [lid, lagging]}
      jacket: {endangered by: [steam], only on: [steam heat]}
    parts:
      elbow: {zone: jacket, behind: lagging, holds: steam}
      ladder: {only on: TW-9}
    fasteners:
      lid screws: {of: lid}
      steam bolts: {only on: [Steam Heat]}
    gauges:
      lamp: {shows: [supply, steam]}
models:
  TW-3: {family: tunnel washer}
  TW-6: {family: tunnel washer, options: [steam heat, blue paint, dosing]}
  TW-9: {family: tunnel washer, also: [nine], options: [steam heat, dosing], serials: [{to: 99, bore: 20 mm}, {from: 100, bore: 25 mm}]}
options: {steam heat: {also: [steam]}, blue paint: {}, dosing: {}}
`,
};
const names = (front: string): readonly string[] => variantsFor(headOf(front), registersOf(FILES)).map(({ name }) => name);

describe('variants', () => {
  test('a model without options is one machine', () => {
    expect(names('models: [TW-3]')).toEqual(['TW-3']);
  });
  test('options that change the machine, none and each; others do not matter', () => {
    expect(names('models: [TW-6]')).toEqual(['TW-6', 'TW-6 with steam heat']);
  });
  test('an option that the steps tell apart matters; two: none, each, both', () => {
    expect(names('models: [TW-6]\noptions: [dosing]')).toEqual([
      'TW-6',
      'TW-6 with steam heat',
      'TW-6 with dosing',
      'TW-6 with steam heat and dosing',
    ]);
  });
  test('serial ranges', () => {
    expect(names('models: [TW-9]')).toEqual([
      'TW-9 up to 99',
      'TW-9 up to 99 with steam heat',
      'TW-9 from 100',
      'TW-9 from 100 with steam heat',
    ]);
  });
  test('in the order of the front matter, by any spelling, each model once, unknown ones left out', () => {
    expect(names('models: [tw-6, TW-3, TW-6, TW-7]')).toEqual(['TW-6', 'TW-6 with steam heat', 'TW-3']);
    expect(names('models: [nine]')[0]).toBe('TW-9 up to 99');
  });
  test('only on: machines without it are left out', () => {
    expect(names('models: [TW-3, TW-6]\nonly on: [steam]')).toEqual(['TW-6 with steam heat']);
    expect(names('models: [TW-3, TW-6]\nonly on: [dosing]')).toEqual(['TW-6 with dosing', 'TW-6 with steam heat and dosing']);
  });
  test('many options never multiply', () => {
    const options = Array.from({ length: 12 }, (_, n) => `o${n}`);
    const files = {
      'registers/equipment.yaml': `families: {f: {energy: {}}}\nmodels: {M: {family: f, options: [${options}]}}\noptions: {${options.map((o) => `${o}: {}`)}}\n`,
    };
    expect(variantsFor(headOf(`models: M\noptions: [${options}]`), registersOf(files))).toHaveLength(1 + 12 + 1);
  });
});

describe('machines', () => {
  const [bare, steamed] = machinesOf(FILES, 'models: [TW-6]');
  const list = (things: readonly { readonly name: string }[] = []): readonly string[] => things.map(({ name }) => name);

  test('without the option: its source, points, covers, zones and fasteners are gone', () => {
    expect(list(bare?.sources)).toEqual(['supply', 'water']);
    expect(list(bare?.points)).toEqual(['main switch', 'drain']);
    expect(list(bare?.covers)).toEqual(['lid']);
    expect(list(bare?.zones)).toEqual(['tank']);
    expect(list(bare?.fasteners)).toEqual(['lid screws']);
    expect(list(bare?.parts)).toEqual(['elbow']);
  });
  test('what is left names only what is left', () => {
    expect(bare?.zones[0]).toMatchObject({ endangeredBy: ['supply', 'water'], behind: ['lid'] });
    expect(bare?.controls[0]?.starts).toEqual(['supply']);
    expect(bare?.covers[0]?.fasteners).toEqual(['lid screws']);
    expect(bare?.gauges[0]?.shows).toEqual(['supply']);
  });
  test('a part whose zone is gone lies in the whole machine', () => {
    expect(bare?.parts[0]).not.toHaveProperty('zone');
    expect(bare?.parts[0]).not.toHaveProperty('holds');
    expect(steamed?.parts[0]).toMatchObject({ zone: 'jacket', behind: 'lagging', holds: 'steam' });
  });
  test('with the option all is there', () => {
    expect(list(steamed?.points)).toEqual(['main switch', 'steam valve', 'drain']);
    expect(list(steamed?.fasteners)).toEqual(['lid screws', 'steam bolts']);
  });
  test('a thing of one model', () => {
    expect(list(machinesOf(FILES, 'models: [TW-9]')[0]?.parts)).toEqual(['elbow', 'ladder']);
  });
  test('points take their roles from all sources, isolators can be locked unless said', () => {
    const drain = steamed?.points.find((point) => point.name === 'drain');
    expect(drain).toMatchObject({ roles: ['relieve'], positions: ['open'], lockable: false });
    expect(steamed?.points.find((point) => point.name === 'steam valve')).toMatchObject({ roles: ['isolate'], lockable: true });
  });
});
