/** What is remembered of objects: right always, the last ones for sure, and never more than twice the half. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Recent } from '../../../procedures-schema/recent.ts';

test('the last ones are there, with the value that was set last, and no more than two halves of them', () => {
  const keys = Array.from({ length: 12 }, (_, at) => ({ at }));
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 4 }), fc.array(fc.tuple(fc.nat(11), fc.boolean()), { maxLength: 60 }), (half, deeds) => {
      const recent = Recent.ofObjects<object, number>(half);
      const values = new Map<object, number>();
      /** By when it was asked for or set last. */
      let used: object[] = [];
      for (const [round, [at, asks]] of deeds.entries()) {
        const key = keys[at] as object;
        const found = asks ? recent.get(key) : undefined;
        if (found !== undefined) expect(found).toBe(values.get(key));
        if (asks && found === undefined) {
          expect(used.slice(0, half)).not.toContain(key);
          continue;
        }
        if (!asks) {
          recent.set(key, round);
          values.set(key, round);
        }
        used = [key, ...used.filter((one) => one !== key)];
      }
      // Looking changes what is remembered, so each is looked for in its own copy of the story only once here.
      expect(keys.filter((key) => recent.get(key) !== undefined).length).toBeLessThanOrEqual(2 * half);
    }),
  );
});
