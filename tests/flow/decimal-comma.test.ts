/** Times by the decimal mark of the library that says them: with the wrong one a wait of a second and a half is a wait of twenty-five minutes. */
import { describe, expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { expandCase } from '../support/cases.ts';

/** Checks that found something, where the link needs `needed` to run down and the text waits `waited`. */
function found(language: string, needed: string, waited: string): readonly string[] {
  const { files, figures } = expandCase({
    name: 'a wait',
    finds: 0,
    equipment: [
      [
        'supply: {kind: electrical',
        `      supply: {kind: electrical, size: 400 V, isolate: {main isolator: off}, try out: start button}\n      link: {kind: capacitor, size: 560 V DC, isolate: {main isolator: off}, settles in: "${needed}"}`,
      ],
      ['drum bay: {endangered by', '      drum bay: {endangered by: [supply, link, air, drum weight], behind: [side guard]}'],
    ],
    change: [['Open the [dump valve]', `#. Open the [dump valve].\n#. Wait ${waited} for the [link] to run down.`]],
    work: '#. Clean the [scraper].',
  });
  const own = files.map(({ path, text }) => ({
    path,
    text: path === 'library.yaml' ? text.replace('language: en', `language: ${language}`) : text,
  }));
  return checkLibrary(own, [], { figures }).findings.flatMap(({ check, severity }) => (severity === 'error' ? [check] : []));
}

describe('a wait is long enough', () => {
  test.each([
    // Language, needed, waited.
    ['en', '5 min', '5 min'],
    ['en', '1.5 s', '1.500 s'],
    ['de', '1,5 s', '1,500 s'],
    ['de', '90 s', '1,5 min'],
    ['en', '5 to 10 min', '10 min'],
  ])('%s: %s needed, %s waited', (language, needed, waited) => expect(found(language, needed, waited)).toEqual([]));
});

describe('a wait is too short, or cannot be told', () => {
  test.each([
    ['en', '5 min', '4 min'],
    // A point parts thousands in German, a comma in English: twenty-five minutes are needed.
    ['de', '1500 s', '1,500 s'],
    ['de', '1.501 s', '1,501 s'],
    ['en', '1500 s', '1.500 s'],
    // May be fifteen hundred or one and a half.
    ['en', '20 min', '1,500 s'],
    ['de', '20 min', '1.500 s'],
    // Of a range the longer time is needed, and the shorter one is sure to be waited.
    ['en', '5 to 10 min', '5 min'],
    ['en', '10 min', '5 to 10 min'],
  ])('%s: %s needed, %s waited', (language, needed, waited) => expect(found(language, needed, waited)).toContain('hands-relieved'));
});
