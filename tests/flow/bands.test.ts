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

test('what keeps a proved source from coming back is shown as gone from the step that takes it off, and no rule asks for more', () => {
  const shownIn = (more: string) => {
    const changed = texts.map((file) =>
      file.path.includes('OM-5120') ? { ...file, text: file.text.replace('Take the [earth lead] off.\n', (line) => line + more) } : file,
    );
    const one = checkLibrary(changed).facts.procedures.find(({ head }) => head.id === 'OM-5120');
    const steps = one?.read.labels.steps.filter(({ section }) => section.title === 'Connect and close') ?? [];
    return {
      bands: steps.slice(2, 8).map((step) => `${step.label} ${one?.flow.bands.get(step)} ${one?.flow.during.get(step)}`),
      verdicts: new Set(one?.flow.verdicts.map(({ verdict }) => verdict)),
      violations: one?.flow.violations.length,
    };
  };
  const plain = shownIn('');
  expect(plain.bands.slice(0, 3)).toEqual(['3 open open', '4 open cut', '5 cut cut']);
  expect([[...plain.verdicts], plain.violations]).toEqual([['proved'], 0]);
  // Tested again it is as good as it was, up to the first hand, as any proof of what can come back.
  const meter = 'Try the [multimeter] on a source that is known to be live.\n';
  const again = shownIn(`5. ${meter}6. Measure the link dc at the [link terminals] with the [multimeter]: it must show 0 V.\n7. ${meter}`);
  expect(again.bands.slice(1)).toEqual(['4 open cut', '5 cut cut', '6 cut cut', '7 cut cut', '8 open cut']);
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
