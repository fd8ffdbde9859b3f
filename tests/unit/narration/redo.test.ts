/** What must be made again after an edit, and the record that remembers what was filmed. */
import { describe, expect, test } from 'vitest';
import { readYaml } from '../../../procedures-schema/index.ts';
import { addressAt, filmLinks, readRecord, readVtt, redoPlan, writeRecord, writeVtt } from '../../../procedures-schema/narration/index.ts';
import { fixtureScript } from '../../support/narration.ts';

const WORK = '#. Clean the [scraper].\n#. Wait 1 min.\n#. Tighten the two [scraper bolts] to 25 N·m [18.4 lbf·ft], dry.';
const filmed = fixtureScript({ work: WORK });
const text = writeRecord(filmed, { number: 'FX-V1', revision: 'A', address: 'https://films.example/fx', captions: 'narration/FX-V1.vtt' });
const read = () => {
  const { record, problems } = readRecord(readYaml('narration/FX-V1.yaml', text).tree);
  expect(problems).toEqual([]);
  if (!record) throw new Error('no record');
  return record;
};
const plan = (work: string) => redoPlan(fixtureScript({ work }), read());
const changed = (work: string): string[] =>
  plan(work)
    .passages.filter(({ redo, moved }) => redo !== 'nothing' || moved)
    .map(({ passage, redo, moved }) => `${redo}${moved ? ' moved' : ''} ${passage.key}`);

test('a record is read back as it was written', () => {
  expect(read()).toMatchObject({ number: 'FX-V1', procedure: 'FX-100', textHash: filmed.textHash, address: 'https://films.example/fx' });
  expect(read().passages).toEqual(filmed.passages.map(({ key, hashes }) => ({ key, hashes })));
});

test.each([
  ['number: X\n', 'must say procedure, text hash'],
  ['- a\n', 'must say'],
  ['number: X\nprocedure: Y\ntext hash: z\naddress: javascript:alert(1)\n', 'is no address'],
])('a record that says too little, or a bad address: %j', (yaml, said) => {
  expect(readRecord(readYaml('narration/x.yaml', yaml).tree).problems.join()).toContain(said);
});

describe('after an edit', () => {
  test('nothing changed, nothing to do', () => expect(changed(WORK)).toEqual([]));
  test('other words for the same picture are voiced again', () =>
    expect(changed(WORK.replace('Clean the [scraper].', 'Clean the [scraper] well.'))).toEqual(['voice work 1']));
  test('another second value is only written again', () =>
    expect(changed(WORK.replace('18.4 lbf·ft', '18.5 lbf·ft'))).toEqual(['caption work 3']));
  test('a longer wait is filmed again', () => expect(changed(WORK.replace('1 min', '2 min'))).toEqual(['film work 2']));
  test('a new step is filmed; those after it only get other labels on the screen', () =>
    expect(changed(WORK.replace('#. Wait', '#. Wipe the [air hose].\n#. Wait'))).toEqual([
      'film work 2',
      'caption work 3',
      'caption work 4',
    ]));
  test('a step taken out is to be cut out', () => expect(plan('#. Clean the [scraper].\n#. Wait 1 min.').gone).toEqual(['work 3']));
  test('chapters say the most that is to be done in them', () => {
    const { chapters } = plan(WORK.replace('1 min', '2 min'));
    expect(chapters.find(({ title }) => title === 'Work')?.redo).toBe('film');
    expect(chapters.find(({ title }) => title === 'Make safe')?.redo).toBe('nothing');
  });
});

describe('links', () => {
  const captions = readVtt(writeVtt(filmed.passages.map(({ said }, n) => ({ start: n * 6 + 0.5, end: n * 6 + 5, text: said }))));
  test('each step at its second, by media fragment', () => {
    const links = captions ? filmLinks(filmed, read(), captions) : [];
    const step = links.find(({ key }) => key === 'work 3');
    const at = filmed.passages.findIndex(({ key }) => key === 'work 3') * 6;
    expect(step?.address).toBe(`https://films.example/fx#t=${at}`);
    expect(addressAt('https://films.example/fx#top', 61.9)).toBe('https://films.example/fx#t=61');
  });
  test('a step whose words changed since is not linked: the film says something else', () => {
    const edited = fixtureScript({ work: WORK.replace('to 25 N·m [18.4 lbf·ft]', 'to 30 N·m [22.1 lbf·ft]') });
    const keys = captions ? filmLinks(edited, read(), captions).map(({ key }) => key) : [];
    expect(keys).toContain('work 1');
    expect(keys).not.toContain('work 3');
  });
});
