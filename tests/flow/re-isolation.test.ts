/**
 * The fix for hands inside a live machine: the steps that made it safe earlier, put in again and renumbered. Once it is laid on the
 * text the finding is gone, no new error has come, and every reference still means the step it meant.
 */
import { describe, expect, test } from 'vitest';
import { applyEdits, type CheckCase, checkLibrary, type Finding } from '../../procedures-schema/index.ts';
import { expandCase } from '../support/cases.ts';
import { FIXTURE_CLOSE } from '../support/fixture.ts';

const PATH = 'procedures/FX-100.md';
const BACK = FIXTURE_CLOSE.replace('## Close up', '## Run it');

interface Case extends Omit<CheckCase, 'finds' | 'name'> {
  readonly check: string;
  /** Words that the text must hold once the fix is laid on it. */
  readonly holds: readonly string[];
}

const CASES: Readonly<Record<string, Case>> = {
  'the machine was run, then a hand goes in, and nothing closes it after': {
    check: 'hands-isolated',
    body: `@SAFE\n## Work\n\n#. Clean the [scraper].\n\n${BACK}\n## Once more\n\n#. Look at the drum from outside the guard.\n#. Remove the [side guard].\n#. Clean the [scraper].\n#. Refit the [side guard].\n`,
    holds: [
      '2. Tell the people at the mixer',
      '. Switch the [main isolator] off.',
      '. Read the [air gauge]: it must show 0 bar.\n',
      '. Switch the [main isolator] on.',
    ],
  },
  'switched off again, but not locked': {
    check: 'hands-locked',
    body: `@SAFE\n## Work\n\n#. Clean the [scraper].\n\n${BACK}\n## Once more\n\n#. Switch the [main isolator] off.\n#. Shut the [air valve].\n#. Open the [dump valve].\n#. Put the [drum pin] in.\n#. Remove the [side guard].\n#. Clean the [scraper].\n#. Refit the [side guard].\n\n${FIXTURE_CLOSE}`,
    holds: [],
  },
  'the lock comes off for a moment and the proof is not made again': {
    check: 'hands-proved',
    body: `@SAFE\n## Work\n\n#. Clean the [scraper].\n#. {#off} Take your lock and tag off the [air valve].\n#. {#on} Put your lock and tag on the [air valve].\n#. {#hand} Clean the [scraper] again.\n#. Look at the work of [steps #off to #hand] and of step 4 from outside the guard.\n\n${FIXTURE_CLOSE}`,
    holds: [
      '4. Send everyone clear of the mixer.',
      '5. Read the [air gauge]: it must show 0 bar.',
      '6. {#hand} Clean the [scraper] again.',
      'of step 6 from outside',
    ],
  },
};

function checked(texts: ReadonlyMap<string, string>): readonly Finding[] {
  const files = [...texts].map(([path, text]) => ({ path, text }));
  return checkLibrary(files, [...texts.keys()]).findings.filter(({ severity }) => severity === 'error');
}
const say = ({ check, range, message }: Finding): string => `${check}:${range.start.line} ${message}`;

describe('laid on the text', () => {
  test.each(Object.entries(CASES))('%s', (name, { check, holds, ...rest }) => {
    const { files } = expandCase({ name, finds: 1, ...rest });
    const texts = new Map(files.map(({ path, text }) => [path, text]));
    const before = checked(texts);
    const finding = before.find((one) => one.check === check);
    expect(finding, before.map(say).join('\n')).toBeDefined();
    expect(finding?.fix, before.map(say).join('\n')).toBeDefined();
    texts.set(PATH, applyEdits(texts.get(PATH) as string, finding?.fix?.edits ?? []));
    const after = checked(texts);
    const text = texts.get(PATH) as string;
    expect(
      after.map(({ check: id }) => id).filter((id) => !before.some((one) => one.check === id)),
      `${text}\n${after.map(say).join('\n')}`,
    ).toEqual([]);
    expect(after.filter((one) => one.message === finding?.message)).toEqual([]);
    expect(after.length).toBeLessThan(before.length);
    for (const words of holds) expect(text).toContain(words);
  });
});

test('where nothing made it safe before, nothing is offered', () => {
  const { files } = expandCase({
    name: 'never safe',
    finds: 1,
    body: '## Work\n\n#. Remove the [side guard].\n#. Clean the [scraper].\n#. Refit the [side guard].\n',
  });
  const found = checked(new Map(files.map(({ path, text }) => [path, text])));
  expect(found.map(({ check, fix }) => [check, fix?.title])).toContainEqual(['hands-isolated', undefined]);
});
