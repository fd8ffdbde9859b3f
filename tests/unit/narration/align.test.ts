/** Alignment and drift on small recordings that are made here: takes, orders, values, and what must not be taken for something. */
import { describe, expect, test } from 'vitest';
import { align, driftsOf, normalText, readVtt, type Script, writeVtt } from '../../../procedures-schema/narration/index.ts';
import { fixtureScript, fixtureScriptIn, passage } from '../../support/narration.ts';

const WORK = `#. Loosen the two [scraper bolts] by one turn.

:::warning
The scraper edge is sharp. It can cut your hand. Wear the gloves.
:::

#. Lift the [scraper] off with both hands.
#. Tighten the two [scraper bolts] to 25 N·m with the [torque wrench], dry.
#. Wait 5 min until the paint is dry.
#. Wipe the [air hose] and look at it along its length.
#. Hang the rag on the hook beside the door.`;

const script = fixtureScript({ work: WORK });
const lines = (): string[] => script.passages.map(({ said }) => said);
/** One cue a line, four seconds each; a wait of 300 s after the line that tells it. */
function spoken(said: readonly string[], wait = 300) {
  let at = 0;
  const cues = said.map((text) => {
    const cue = { start: at, end: at + 4, text };
    at += text.includes('Wait 5 min') ? 4 + wait : 5;
    return cue;
  });
  const file = readVtt(writeVtt(cues));
  if (!file) throw new Error('no captions');
  return align(script, file);
}
const told = (said: readonly string[], wait?: number): string[] =>
  driftsOf(spoken(said, wait)).map(({ kind, message }) => `${kind}: ${message}`);
const index = (words: string): number => lines().findIndex((line) => line.includes(words));
const without = (words: string): string[] => lines().filter((line) => !line.includes(words));
const changed = (from: string, to: string): string[] => lines().map((line) => line.replace(from, to));

describe('what was recorded as it is written', () => {
  test('has no drift, every passage its time', () => {
    const alignment = spoken(lines());
    expect(driftsOf(alignment)).toEqual([]);
    expect(alignment.passages.map(({ main }) => main?.confidence)).toEqual(lines().map(() => 1));
  });
  test('a take read again is no drift, whatever stands between', () => {
    const said = lines();
    const at = index('Lift the scraper');
    said.splice(at + 1, 0, 'Um, once more.', said[at] as string);
    expect(told(said)).toEqual([]);
  });
  test('the second unit read out is right too', () => {
    const dual = fixtureScript({ work: '#. Tighten the two [scraper bolts] to 25 N·m [18.4 lbf·ft] with the [torque wrench], dry.' });
    const cues = dual.passages.map(({ said }, n) => ({ start: n * 5, end: n * 5 + 4, text: said.replace('25 N·m', '18.4 foot-pounds') }));
    const file = readVtt(writeVtt(cues));
    expect(file && driftsOf(align(dual as Script, file))).toEqual([]);
  });
});

describe('in a library with decimal commas', () => {
  const comma = fixtureScriptIn('de', {
    work: '#. Measure a gap of 2,5 mm.\n#. Wait 1,5 min.\n#. Hang the rag on the hook beside the door.',
  });
  const told = (change: (said: string) => string) => {
    const cues = comma.passages.map(({ said }, n) => ({ start: n * 5, end: n * 5 + 4, text: change(said) }));
    const file = readVtt(writeVtt(cues));
    return (file ? driftsOf(align(comma, file)) : []).filter(({ kind }) => kind === 'other-value').map(({ message }) => message);
  };
  test('a value is said and waited for as it is written', () => {
    const gap = passage(comma, 'Measure a gap');
    expect([gap.spoken, gap.screen]).toEqual([expect.stringContaining('two point five millimetres'), expect.arrayContaining(['2,5 mm'])]);
    expect(passage(comma, 'Wait').wait).toBe(90);
  });
  test('captions may write it with the comma, and another value is told', () => {
    expect(told((said) => said)).toEqual([]);
    expect(told((said) => said.replace('2,5 mm', '2.5 mm'))).toEqual([]);
    expect(told((said) => said.replace('2,5 mm', '3,5 mm'))).toEqual([expect.stringContaining('3.5 mm')]);
  });
});

describe('drift', () => {
  test.each([
    ['a step left out', () => without('Wipe the air hose'), /^not-spoken: Step Work 5 is not spoken\./],
    ['a notice left out', () => without('scraper edge is sharp'), /^notice-missing: The notice before step Work 2 is not spoken\./],
    ['another value', () => changed('25 N·m', '52 N·m'), /^other-value: Step Work 3, at .*: 52 N·m is heard where the text says 25 N·m\./],
    [
      'another unit',
      () => changed('25 N·m', '25 foot-pounds'),
      /^other-unit: Step Work 3, .*25 lbf·ft is heard where the text says 25 N·m/,
    ],
  ] as const)('%s', (_, said, expected) => {
    const found = told(said());
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(expected);
  });
  test('a notice after its step', () => {
    const said = lines();
    const at = index('scraper edge is sharp');
    said.splice(at, 2, said[at + 1] as string, said[at] as string);
    expect(told(said)).toEqual([expect.stringMatching(/^notice-late: The notice before step Work 2 is spoken at .*, after its step/)]);
  });
  test('something the text no longer has', () => {
    const said = lines();
    said.splice(index('Wipe the air hose'), 0, 'Drain the last of the coolant into the bucket and carry it outside.');
    expect(told(said)).toEqual([expect.stringMatching(/^not-in-text: At \d+:\d\d something is spoken/)]);
  });
  test('another order', () => {
    const said = lines();
    const at = index('Wipe the air hose');
    said.splice(at, 2, said[at + 1] as string, said[at] as string);
    expect(told(said)).toEqual([expect.stringMatching(/^other-order: Step Work [56] is spoken/)]);
  });
  test('a wait cut short is advice when the voice says how long it is', () => {
    const [found] = driftsOf(spoken(lines(), 2));
    expect(found).toMatchObject({ kind: 'wait-short', severity: 'advice', actual: '0:06', expected: '5:00' });
  });
});

describe('a step for one model', () => {
  const own = fixtureScript({
    work: '#. Lift the [scraper] off with both hands.\n#. For the DM-10, loosen the two [scraper bolts] by one turn.\n#. Wipe the [air hose] and look at it along its length.',
  });
  const heard = (clause: string): string[] => {
    const cues = own.passages.map(({ said }, n) => ({ start: n * 5, end: n * 5 + 4, text: said.replace('For the DM-10, loosen', clause) }));
    const file = readVtt(writeVtt(cues));
    return file ? driftsOf(align(own, file)).map(({ kind, actual }) => `${kind} ${actual}`) : ['no captions'];
  };
  test('the model is named', () => expect(heard('For the DM-10, loosen')).toEqual([]));
  test('no word of the condition', () => expect(heard('Loosen')).toEqual(['model-not-said no model']));
  test('another model', () => expect(heard('For the DM-20, loosen')).toEqual(['model-not-said DM20']));
  test.each(['for the effects one loosen', 'for the loosen', 'four thee DM loosen'])('"%s": said and misheard', (clause) =>
    expect(heard(clause)).toEqual([]),
  );
});

test('the limit of another model is another value, though the screen shows it', () => {
  const limits = 'limits: {DM-10: {lower: 1 mm, upper: 3 mm}, DM-20: {lower: 1 mm, upper: 5 mm}}';
  const own = fixtureScript({
    front: `measurements:\n  slack:\n    quantity: length\n    ${limits}`,
    work: '#. Measure the slack.',
  });
  const cues = own.passages.map(({ said }, n) => ({ start: n * 9, end: n * 9 + 8, text: said.replace('1 to 3 mm', '1 to 5 mm') }));
  const file = readVtt(writeVtt(cues));
  expect(own.passages.some(({ said }) => said.includes('1 to 3 mm'))).toBe(true);
  expect(file && driftsOf(align(own, file)).map(({ kind, actual, expected }) => `${kind} ${actual} ${expected}`)).toEqual([
    'other-value 5 mm 3 mm',
  ]);
});

test.each([
  ['point 3 stages', 'point #3 stage'],
  ['0.5 point 1.5 millimeters', '#0.5 point #1.5 ~mm'],
  ['148 point 165 degrees celsius', '#148 point #165 ~°C'],
  ['5 point 5 bar', '#5.5 ~bar'],
  ['point five bar', '#0.5 ~bar'],
])('"%s": a point before figures is a word, unless it may be one of a decimal', (text, keys) =>
  expect(
    normalText(text)
      .tokens.map(({ key }) => key)
      .join(' '),
  ).toBe(keys),
);

test('numerals of captions are never taken for labels or limits', () => {
  // Every step is announced by a number of the speaker's own, wrong ones among them.
  const said = lines().map((line, n) => `Step ${n * 3 + 40}. ${line}`);
  const alignment = spoken(said);
  expect(driftsOf(alignment).filter(({ kind }) => kind !== 'not-in-text')).toEqual([]);
  expect(alignment.passages.map(({ main }) => main !== undefined)).toEqual(lines().map(() => true));
  expect(passage(script, 'Tighten').said).toContain('25 N·m');
});

test('captions of something else: nothing is claimed to be spoken', () => {
  const file = readVtt(writeVtt([{ start: 0, end: 9, text: 'The weather tomorrow will be mild with some rain in the north.' }]));
  const alignment = file && align(script, file);
  expect(alignment?.takes).toEqual([]);
  expect(alignment && driftsOf(alignment).map(({ kind }) => kind)).toContain('not-spoken');
});
