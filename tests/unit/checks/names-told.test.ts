/** What is offered for a name that nobody registered. A point is never guessed (format rule F3), and yet the writer is told which there are. */
import { expect, test } from 'vitest';
import { checkLibrary } from '../../../procedures-schema/index.ts';
import { expandCase } from '../../support/cases.ts';
import { sample } from '../../support/sample.ts';

const toldOf = (work: string) => {
  const { files } = expandCase({ name: 'a name', finds: 0, work });
  return checkLibrary(files).findings.filter(({ check }) => check === 'names-known');
};

test('a point that is spelt wrongly: all points of the machine, no fix', () => {
  const [told, ...more] = toldOf('#. Put a tag on the [main isolater].');
  expect(more).toEqual([]);
  expect(told?.expected).toMatch(/^the one that is meant of these points: .*main isolator.*, /);
  expect(told?.fix).toBeUndefined();
});

test('any other name: the one that is meant, with a fix', () => {
  const [told] = toldOf('#. Clean the [scrapper].');
  expect(told?.expected).toBe('scraper');
  expect(told?.fix?.title).toBe('Write scraper');
});

test('what hangs on an unread sentence is told once for each step, though two locks are missing', async () => {
  const { texts } = await sample();
  const path = 'procedures/OM-3140-lip-cylinder.md';
  const misspelt = (text: string): string =>
    text.replace('Put your lock and tag on the [main isolator].', 'Put your lock and tag on the [main isolater], if need be.');
  const files = texts.map((file) => (file.path === path ? { ...file, text: misspelt(file.text) } : file));
  const [told] = checkLibrary(files).findings.filter(({ check, file }) => check === 'names-known' && file === path);
  expect(told?.related?.map(({ message }) => message)).toEqual(['step Renew the seal 9 needs it: the mains supply is locked']);
});
