/**
 * Damage among the dots of a JPEG: files of other programs, damaged at many places. How much of it is found is written here as it was counted; what is
 * not found still reads as a picture, and no reader of the words alone can know better.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readBitmap } from '../../../procedures-schema/figures/index.ts';
import { pictureFile, placeOf, withBytes } from '../../support/figures.ts';
import { randomFrom } from '../../support/random.ts';

const FILES = ['page.jpg', 'page-passes.jpg', 'restart.jpg'] as const;
const said = (bytes: Uint8Array): string => {
  const facts = readBitmap('jpeg', bytes);
  return 'fault' in facts ? facts.fault.says : 'nothing wrong';
};
/** Where the words of the first scan begin: after the head of the scan, whose length stands behind its marker. */
function dotsFrom(bytes: Uint8Array): number {
  const at = placeOf(bytes, [0xff, 0xda]);
  return at + 2 + (((bytes[at + 2] as number) << 8) | (bytes[at + 3] as number));
}

type Damage = (bytes: Uint8Array, at: number, below: (count: number) => number) => Uint8Array;
const filled = (bytes: Uint8Array, at: number, length: number, value: () => number): Uint8Array =>
  bytes.map((byte, index) => (index >= at && index < at + length ? value() : byte));

/** Parts of a hundred that are found at the least, of each file as listed; counted on 400 places each. */
const KINDS: readonly (readonly [name: string, length: number, damage: Damage, least: readonly number[]])[] = [
  ['512 bytes of something else', 512, (bytes, at, below) => filled(bytes, at, 512, () => below(256)), [100, 100, 100]],
  ['100 bytes that are gone', 100, (bytes, at) => new Uint8Array([...bytes.subarray(0, at), ...bytes.subarray(at + 100)]), [98, 99, 97]],
  ['64 bytes of nought', 64, (bytes, at) => filled(bytes, at, 64, () => 0), [73, 95, 80]],
  ['one other byte', 1, (bytes, at, below) => filled(bytes, at, 1, () => ((bytes[at] as number) + 1 + below(255)) & 255), [46, 66, 47]],
  ['one wrong bit', 1, (bytes, at, below) => filled(bytes, at, 1, () => (bytes[at] as number) ^ (1 << below(8))), [34, 46, 33]],
];

describe('among the dots', () => {
  test.each(FILES)('%s is whole', (name) => {
    expect(readBitmap('jpeg', pictureFile(name))).toEqual({ columns: 215, rows: 305, components: 3 });
  });

  test.each(KINDS)('%s: as much is found as was counted', (_, length, damage, least) => {
    FILES.forEach((name, index) => {
      const bytes = pictureFile(name);
      const from = dotsFrom(bytes);
      const below = randomFrom(index + 1);
      let found = 0;
      for (let k = 0; k < 400; k += 1)
        if (said(damage(bytes, from + below(bytes.length - from - length - 2), below)) !== 'nothing wrong') found += 1;
      expect(Math.floor(found / 4), `${name}: found`).toBeGreaterThanOrEqual(least[index] as number);
    });
  });

  test('whatever is damaged, it is told in a sentence, and nothing is thrown', () => {
    const damaged = fc.tuple(fc.constantFrom(...FILES), fc.array(fc.tuple(fc.nat(), fc.nat(255)), { minLength: 1, maxLength: 20 }));
    fc.assert(
      fc.property(damaged, ([name, changes]) => {
        const bytes = pictureFile(name);
        for (const [at, value] of changes) bytes[2 + (at % (bytes.length - 2))] = value;
        expect(said(bytes)).toMatch(/^nothing wrong$|\.$/);
      }),
      { numRuns: 500, seed: 7 },
    );
  });
});

describe('it is told', () => {
  test('when the dots end too soon, or a piece between two restarts is missing', () => {
    const bytes = pictureFile('restart.jpg');
    const [second, third] = [placeOf(bytes, [0xff, 0xd1]), placeOf(bytes, [0xff, 0xd2])];
    expect(said(new Uint8Array([...bytes.subarray(0, second), ...bytes.subarray(third)]))).toMatch(
      /^It is damaged: before byte \d+ its dots cannot be read on\.$/,
    );
    const page = pictureFile('page.jpg');
    expect(said(new Uint8Array([...page.subarray(0, 9000), 0xff, 0xd9]))).toBe(
      'It is damaged: its dots end after 9000 bytes, before the picture does.',
    );
  });

  test('when there are more dots than the picture has, but not when a camera fills up with nought', () => {
    const bytes = pictureFile('page.jpg');
    const lower = withBytes(bytes, placeOf(bytes, [0xff, 0xc0]) + 5, [0, 200]);
    expect(said(lower)).toMatch(/^It is damaged: before byte \d+ its dots cannot be read on\.$/);
    const end = bytes.length - 2;
    expect(said(new Uint8Array([...bytes.subarray(0, end), 0, 0, 0, ...bytes.subarray(end)]))).toBe('nothing wrong');
    expect(said(new Uint8Array([...bytes.subarray(0, end), 5, 6, 7, ...bytes.subarray(end)]))).toMatch(/^It is damaged/);
  });

  test('when a table is missing that they are read by', () => {
    const bytes = pictureFile('page.jpg');
    for (const marker of [0xdb, 0xc4])
      expect(said(withBytes(bytes, placeOf(bytes, [0xff, marker]) + 1, [0xfe])), `${marker}`).toBe(
        'It is damaged: a table that its dots are read by is missing.',
      );
  });

  test('when a pass is missing that a colour is first seen in', () => {
    const bytes = pictureFile('page-passes.jpg');
    const [first, second] = [...bytes.keys()].filter((at) => bytes[at] === 0xff && bytes[at + 1] === 0xda) as [number, number];
    expect(second).toBeGreaterThan(first);
    const tables = [...bytes.subarray(0, second)].lastIndexOf(0xc4) - 1;
    expect(tables).toBeGreaterThan(first);
    expect(said(new Uint8Array([...bytes.subarray(0, first), ...bytes.subarray(tables)]))).toBe(
      'It is damaged: one of its colours is missing.',
    );
  });
});

test('what cannot be found: a bit of a value is another value', () => {
  const bytes = pictureFile('page.jpg');
  const from = dotsFrom(bytes);
  const silent = Array.from({ length: 400 }, (_, k) => withBytes(bytes, from + k, [(bytes[from + k] as number) ^ 1])).filter(
    (one) => said(one) === 'nothing wrong',
  );
  expect(silent.length).toBeGreaterThan(0);
});
