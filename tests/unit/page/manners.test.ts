/** Reading a long library gives way to whoever types, and is not put off for ever. */
import { describe, expect, test } from 'vitest';
import { Manners } from '../../../renderer/worker/manners.ts';

/** When something is read while a key comes every so often; the worker asks anew when it was told to wait. */
function readings(every: number, until: number): number[] {
  const manners = new Manners();
  const read: number[] = [];
  manners.read(0);
  for (let now = 0; now <= until; now += 1) {
    if (now % every === 0) manners.key(now);
    if (manners.heldFor(now) > 0) continue;
    read.push(now);
    manners.read(now);
  }
  return read;
}

describe('a library that is read while somebody types', () => {
  test('is not read between the keys of a word', () => expect(readings(120, 4900)).toEqual([]));

  test('is read in the pauses', () => {
    const read = readings(1000, 3000);
    expect(read).toHaveLength(3 * 750);
    expect(read.every((at) => at % 1000 >= 250)).toBe(true);
  });

  test('is read a little every five seconds for whoever never pauses', () =>
    expect(readings(120, 20_000)).toEqual([5000, 10_000, 15_000, 20_000]));

  test('is read at once when nobody types', () => expect(new Manners().heldFor(0)).toBeLessThanOrEqual(0));
});
