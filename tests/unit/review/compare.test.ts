/** Two texts compared by meaning: each kind of change a re-issue brings, and that a change of form alone is none. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { movedIn, pairUp } from '../../../procedures-schema/review/index.ts';
import { whatChanged } from '../../support/review.ts';

const swap = (from: string | RegExp, to: string) => (text: string) => text.replace(from, to);

describe('a re-issue', () => {
  test('without a step that protects', async () => {
    const found = await whatChanged((text) => text.replace(/^2\. Put your lock and tag on the \[main isolator\]\.\n/m, ''));
    expect(found[0]).toMatch(/^protection \| (step removed|verdict changed)/);
    expect(found.join('\n')).toMatch(/protection \| step removed \| Renew the seal 2 \| Put your lock and tag on the main isolator\. -> /);
    expect(found.join('\n')).toMatch(
      /protection \| verdict changed \| DL-20, DL-25 up to 2199, DL-25 from 2200, DL-30 \| proved -> refuted/,
    );
    expect(found.join('\n')).toContain('revision kept');
  });

  test('with another limit', async () => {
    const found = await whatChanged(swap('| DL-20 | 0 mm | 4 mm [0.15 in] |', '| DL-20 | 0 mm | 4.5 mm |'));
    expect(found.join('\n')).toMatch(/limits \| limit changed \| lip drift on DL-20 \| 0 to 4\smm.* -> 0 to 4\.5\smm/);
    expect(found.filter((line) => line.includes('limit changed'))).toHaveLength(1);
  });

  test('with a notice lost, and with a weaker one', async () => {
    const whole = /:::danger\nThe platform weighs[\s\S]*?:::\n/;
    expect((await whatChanged((text) => text.replace(whole, ''))).join('\n')).toMatch(
      /notice lost \| danger \| DANGER: The platform weighs/,
    );
    expect((await whatChanged((text) => text.replace(/:::danger(\nThe platform weighs)/, ':::warning$1'))).join('\n')).toMatch(
      /protection \| notice changed \| warning \| DANGER: .* -> WARNING: /,
    );
  });

  test('with a step that does otherwise, and one only reworded', async () => {
    const other = await whatChanged(swap(/Wait 10 min/, 'Wait 15 min'));
    expect(other.join('\n')).toMatch(/(work|protection) \| step does otherwise \| .*Wait 10 min.* -> .*Wait 15 min/);
    const [only] = await whatChanged(
      swap('Send everyone off the platform and out of the pit.', 'Send everyone off the platform, and out of the pit.'),
    );
    expect(only).toMatch(/^words \| step reworded|^scope \| revision kept/);
  });

  test('with another list of tools and models', async () => {
    expect((await whatChanged(swap('laser distance meter', 'steel rule'))).join('\n')).toMatch(/entry (added|removed) \| tools/);
  });

  test('with its revision raised says nothing of a kept one', async () => {
    const found = await whatChanged((text) => text.replace(/^revision: "C"/m, 'revision: "D"').replace('Wait 10 min', 'Wait 15 min'));
    expect(found.length).toBeGreaterThan(0);
    expect(found.join('\n')).not.toContain('revision kept');
  });

  test('whose lines were wrapped anew changes nothing', async () => {
    expect(
      await whatChanged((text) => text.replace('Send everyone off the platform and', 'Send everyone off the\n   platform and')),
    ).toEqual([]);
  });
});

describe('pairing', () => {
  const steps = fc.uniqueArray(fc.string({ minLength: 1, maxLength: 12 }), { minLength: 1, maxLength: 12 });
  const pairable = (texts: readonly string[]) => texts.map((text) => ({ section: 'A', text }));

  test('in another order every step finds itself, and only moved ones are called moved', () => {
    fc.assert(
      fc.property(steps, fc.infiniteStream(fc.nat()), (texts, order) => {
        const keys = texts.map(() => order.next().value as number);
        const later = texts.map((_, index) => index).sort((a, b) => (keys[a] ?? 0) - (keys[b] ?? 0) || a - b);
        const pairs = pairUp(pairable(texts), pairable(later.map((index) => texts[index] ?? '')));
        expect(pairs).toEqual(later);
        const moved = movedIn(pairs);
        const stayed = pairs.filter((_, index) => !moved.has(index));
        expect(stayed).toEqual([...stayed].sort((a, b) => a - b));
      }),
    );
  });

  test('no step is given twice, and one left out leaves the others as they are', () => {
    fc.assert(
      fc.property(steps, fc.nat(), (texts, at) => {
        const without = texts.filter((_, index) => index !== at % texts.length);
        const pairs = pairUp(pairable(texts), pairable(without));
        expect(new Set(pairs).size).toBe(pairs.length);
        expect(movedIn(pairs).size).toBe(0);
      }),
    );
  });
});
