/** The band beside the steps never says "no hands in" where the text puts hands in, on any sample procedure: each of them is proved. */
import { expect, test } from 'vitest';
import { marginOf } from '../../procedures-schema/assist/index.ts';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { sample } from '../support/sample.ts';

const { texts } = await sample();
const { facts } = checkLibrary(texts);

test.each(facts.procedures.map((one) => [one.head.id, one] as const))('%s', (_, one) => {
  const wrong = marginOf(one, facts).lines.filter(({ hands, before }) => before === 'live' && hands.some(({ zone }) => zone !== ''));
  expect(wrong.map(({ fullLabel, hands }) => `${fullLabel}: ${hands.map(({ zone }) => zone).join(', ')}`)).toEqual([]);
});

test('a procedure that locks out for others begins live, though no hand goes in', () => {
  const one = facts.procedures.find(({ head }) => head.id === 'OM-4110');
  const bands = [...(one?.flow.bands.values() ?? [])];
  expect([bands[0], bands.at(-1)]).toEqual(['live', 'safe']);
});

test('there are hands, and there is energy', () => {
  const lines = facts.procedures.flatMap((one) => marginOf(one, facts).lines);
  expect(lines.filter(({ hands }) => hands.some(({ zone }) => zone !== '')).length).toBeGreaterThan(100);
  expect(lines.filter(({ before }) => before === 'live').length).toBeGreaterThan(100);
});
