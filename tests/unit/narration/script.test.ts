/** Scripts: what is said, in which order, what is shown and filmed, how long it is thought to take. */
import { describe, expect, test } from 'vitest';
import { chapterList, estimatedSpans, scriptMarkdown, shotsMarkdown } from '../../../procedures-schema/narration/index.ts';
import { fixtureScript, passage, sampleScript, told } from '../../support/narration.ts';

describe('order', () => {
  test('the condition is said before the action', () => {
    const script = fixtureScript({ work: '#. Loosen the [scraper bolts] if the [scraper] touches the drum.\n#. Clean the [scraper].' });
    expect(told(script)).toBe('step 1 If the scraper touches the drum, loosen the scraper bolts.\nstep 2 Clean the scraper.');
  });

  test.each([
    ['Check if the [scraper] is bent.', 'Check if the scraper is bent.'],
    ['Clean the [scraper] until it shines.', 'Clean the scraper until it shines.'],
    ['If it is bent, clean the [scraper].', 'If it is bent, clean the scraper.'],
    ['Clean the [scraper] when it is dirty, and look at it.', 'Clean the scraper when it is dirty, and look at it.'],
    ['Clean the [scraper] unless it is clean.', 'Unless it is clean, clean the scraper.'],
  ])('%s', (written, spoken) => {
    expect(told(fixtureScript({ work: `#. ${written}` }))).toBe(`step 1 ${spoken}`);
  });

  test('notices come first: those of the section, between two steps, inside a step', () => {
    const work =
      ':::warning\nThe drum is heavy.\n:::\n\n#. Clean the [scraper].\n\n:::caution\nThe edge is sharp.\n:::\n\n#. Remove the [scraper].\n\n   :::notice\nKeep the shims.\n   :::\n';
    expect(told(fixtureScript({ work })).split('\n')).toEqual([
      'notice 1 Warning. The drum is heavy.',
      'step 1 Clean the scraper.',
      'notice 2 Caution. The edge is sharp.',
      'notice 2 Notice. Keep the shims.',
      'step 2 Remove the scraper.',
    ]);
  });

  test('branches say their condition, then what is done; bullets follow their verb', () => {
    const work =
      '#. Look at the [scraper].\n   - If it is bent, remove it.\n   - Otherwise, clean it.\n#. Clean:\n   - the [scraper]\n   - the [air hose].';
    expect(told(fixtureScript({ work })).split('\n')).toEqual([
      'step 1 Look at the scraper.',
      'branch 1 If it is bent, remove it.',
      'branch 1 Otherwise, clean it.',
      'step 2 Clean. The scraper and the air hose.',
    ]);
  });

  test('a script for one model leaves out what is for others, and keeps the labels', () => {
    const work = '#. On the DM-10, clean the [scraper].\n#. Clean the [air hose].';
    expect(told(fixtureScript({ work }, 'DM-20'))).toBe('step 2 Clean the air hose.');
    expect(told(fixtureScript({ work }, 'DM-10'))).toContain('step 1 On the D M ten, clean the scraper.');
  });
});

describe('what is shown', () => {
  test('values in both units and the label stand on the screen, the voice says the first', () => {
    const script = fixtureScript({ work: '#. Tighten the two [scraper bolts] to 25 N·m [18.4 lbf·ft] with the [torque wrench], dry.' });
    const step = passage(script, 'Tighten the two');
    expect(step.spoken).toBe('Tighten the two scraper bolts to twenty-five newton metres with the torque wrench, dry.');
    expect(step.screen).toEqual(['Step 1', '25 N·m (18.4 lbf·ft)']);
    expect(step.shot).toMatchObject({ see: ['scraper bolts'], from: 'close, into the drum bay', inView: ['torque wrench'] });
  });

  test('limits are said and shown at the step that measures', async () => {
    const step = passage(await sampleScript('OM-3140'), 'Read the lip drift');
    expect(step.spoken).toMatch(/Limits of lip drift: for the D L twenty, zero to four millimetres; for the D L twenty-five/);
    expect(step.screen).toContain('lip drift, DL-25: 0 to 5 mm (0 to 0.19 in)');
    const one = passage(await sampleScript('OM-3140', 'DL-25'), 'Read the lip drift');
    expect(one.spoken).toMatch(/Limits of lip drift: zero to five millimetres\.$/);
  });

  test('whoever films is told the state, and never that the machine is safe', async () => {
    const script = await sampleScript('OM-3140');
    const care = (words: string): string => passage(script, words).shot.care;
    expect(care('Hold the raise button until the platform')).toMatch(/may be live/);
    expect(care('Unscrew the gland nut')).toMatch(/Locked out .*if all steps before it were done/);
    expect(shotsMarkdown(script)).not.toMatch(/\b(?:machine|it) is safe\b/i);
  });
});

describe('times', () => {
  test('a wait is kept as written, and a film is not longer for it than it shows', () => {
    const script = fixtureScript({ work: '#. Wait 10 min.\n#. Clean the [scraper].' });
    const wait = passage(script, 'Wait 10 min');
    expect(wait.wait).toBe(600);
    expect(wait.time.total).toBeLessThan(30);
  });

  test.each([
    ['Hold the [start button] for 5 s.', 5],
    ['Wait 1 min, then press the [stop button] after 2 s.', 62],
    ['Read the [air gauge] within 1 min.', 0],
    ['If it is warm, wait 5 min.', 0],
  ])('%s waits %d s', (written, seconds) => {
    expect(passage(fixtureScript({ work: `#. ${written}` }), written.slice(0, 6)).wait).toBe(seconds);
  });

  test('passages follow each other, chapters cover the whole', async () => {
    const script = await sampleScript('OM-3140');
    for (const [index, { time }] of script.passages.entries()) {
      const next = script.passages[index + 1];
      expect(next?.time.start ?? script.seconds).toBeCloseTo(time.start + time.total, 6);
    }
    expect(script.chapters[0]).toMatchObject({ title: 'Start', start: 0 });
    expect(script.chapters.at(-1)?.end).toBe(script.seconds);
    expect(chapterList(script.chapters)).toMatch(/^0:00 Start\n(?:\d+:\d\d .+\n)+$/);
  });

  test('estimates are called so', async () => {
    const script = await sampleScript('OM-3140');
    for (const text of [scriptMarkdown(script), shotsMarkdown(script)]) expect(text).toContain('All times are estimates');
    expect(estimatedSpans(script)).toHaveLength(script.passages.length);
  });
});

describe('hashes', () => {
  const base = fixtureScript({ work: '#. Clean the [scraper].\n#. Wait 1 min.' });
  test('the same text gives the same hashes', () => {
    expect(fixtureScript({ work: '#. Clean the [scraper].\n#. Wait 1 min.' }).textHash).toBe(base.textHash);
  });
  test('other words change the voice, a longer wait the picture too', () => {
    const other = fixtureScript({ work: '#. Wipe the [scraper] clean.\n#. Wait 2 min.' });
    expect(other.textHash).not.toBe(base.textHash);
    expect(passage(other, 'Wait').hashes.voice).not.toBe(passage(base, 'Wait').hashes.voice);
    expect(passage(other, 'Wait').hashes.picture).not.toBe(passage(base, 'Wait').hashes.picture);
  });
});
