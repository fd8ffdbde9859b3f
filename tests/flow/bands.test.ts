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
  // Steam can come back while the platens cool: its last reading is used up, and whoever opens the press reads the gauge again.
  expect([bands[0], bands.at(-1)]).toEqual(['live', 'cut']);
});

test('what is locked out is not made safe before it is proved, and a step that gives the power back is live', () => {
  const one = facts.procedures.find(({ head }) => head.id === 'OM-5130');
  const at = (section: string, label: string) =>
    one?.read.labels.steps.find((step) => step.section.title === section && step.label === label);
  const told = (section: string, label: string) => {
    const step = at(section, label);
    return step && [one?.flow.bands.get(step), one?.flow.during.get(step)];
  };
  expect(told('Prove it dead', '2')).toEqual(['cut', 'cut']);
  expect(told('Close up', '6')).toEqual(['safe', 'live']);
});

test('no step ends better than it began, and none that says "no hands in" from beginning to end puts hands in', () => {
  const rank = ['safe', 'open', 'cut', 'live'];
  for (const { flow, head } of facts.procedures)
    for (const [step, begun] of flow.bands)
      expect(rank.indexOf(flow.during.get(step) ?? ''), `${head.id} ${step.fullLabel}`).toBeGreaterThanOrEqual(rank.indexOf(begun));
  const wrong = facts.procedures.flatMap((one) =>
    marginOf(one, facts).lines.filter(
      ({ hands }, index) => hands.some(({ zone }) => zone !== '') && one.flow.during.get(one.read.labels.steps[index] as never) === 'live',
    ),
  );
  expect(wrong.map(({ fullLabel }) => fullLabel)).toEqual([]);
});

test('there are hands, and there is energy', () => {
  const lines = facts.procedures.flatMap((one) => marginOf(one, facts).lines);
  expect(lines.filter(({ hands }) => hands.some(({ zone }) => zone !== '')).length).toBeGreaterThan(100);
  expect(lines.filter(({ before }) => before === 'live').length).toBeGreaterThan(100);
});
