/**
 * One cause, one finding: what may follow only from a sentence that was not read is told at that sentence, the rest is told by itself,
 * and a walk with such a sentence is never proved. What a finding took as right is owed by nobody.
 */
import { describe, expect, test } from 'vitest';
import type { CheckCase } from '../../procedures-schema/checks/index.ts';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { expandCase } from '../support/cases.ts';

function check(near: Omit<CheckCase, 'name' | 'finds'>) {
  const { files } = expandCase({ ...near, name: '', finds: 0 });
  const report = checkLibrary(
    files,
    files.map(({ path }) => path),
  );
  const found = report.findings.filter(({ severity }) => severity !== 'advice');
  return {
    checks: found.map(({ check }) => check),
    said: found.map(({ message }) => message).join('\n'),
    verdicts: new Set(report.facts.procedures[0]?.flow.verdicts.map(({ verdict }) => verdict)),
    related: found.flatMap(({ related = [] }) => related.map(({ message }) => message)),
  };
}

describe('an unread sentence', () => {
  test('a lock that was not read: one finding, which says what hangs on it', () => {
    const { checks, said, verdicts, related } = check({
      change: [
        ['Put your lock and tag on the [main isolator] and', '#. Blorf your lock and tag onto the [main isolator] and the [air valve].'],
      ],
      work: '#. Clean the [scraper].',
    });
    expect(checks).toEqual(['sentence-read']);
    expect(said).toContain('Until it is read, it cannot be shown that');
    expect(said).toContain('the supply is locked');
    expect(related.length).toBeGreaterThan(0);
    expect([...verdicts]).toEqual(['not proved']);
  });

  test('so it is where a second person locks the same points', () => {
    const near = {
      front: 'people: 2\nroles: [second person]',
      work: '#. Clean the [scraper].',
    };
    const second = '#. The second person puts a lock and tag on the [main isolator] and the [air valve].';
    const own = 'Put your lock and tag on the [main isolator] and';
    const unread = check({
      ...near,
      change: [[own, `${second}\n#. Blorf your lock and tag onto the [main isolator] and the [air valve].`]],
    });
    expect(unread.checks).not.toContain('hands-locked');
    expect(unread.said).toContain('the supply is locked');
    const missing = check({ ...near, change: [[own, second]] });
    expect(missing.checks).toContain('hands-locked');
    expect(missing.said).toContain('isolated but not locked by whoever reaches in');
  });

  test('a lock that was not read says where it goes: it is on no other point', () => {
    const { checks, said } = check({
      change: [['Put your lock and tag on the [main isolator] and', '#. Blorf your lock and tag onto the [main isolator].']],
      work: '#. Clean the [scraper].',
    });
    expect(checks).toEqual(expect.arrayContaining(['sentence-read', 'hands-locked']));
    expect(said).toContain('the supply is locked');
    expect(said).not.toContain('the air is locked');
  });

  test('a cover by a name nobody registered: told once, with the name', () => {
    const { checks, said, verdicts } = check({ change: [['Refit the [side guard]', '#. Refit the guard.']] });
    expect(checks).toEqual(['names-known']);
    expect(said).toContain('the side guard is on');
    expect([...verdicts]).toEqual(['not proved']);
  });

  test('what has nothing to do with it is told all the same', () => {
    const { checks, verdicts } = check({
      change: [
        ['Shut the [air valve]', ''],
        ['Refit the [side guard]', '#. Refit the guard.'],
      ],
      work: '#. Clean the [scraper].',
    });
    expect(checks).toContain('hands-isolated');
    expect(checks).toContain('names-known');
    expect([...verdicts]).toEqual(['refuted']);
  });

  test('it mends nothing that comes before it', () => {
    const { checks } = check({
      change: [['Put your lock and tag on the [main isolator] and', '']],
      work: '#. Clean the [scraper].\n#. Blorf your lock and tag onto the [main isolator] and the [air valve].',
    });
    expect(checks).toContain('hands-locked');
  });

  test('nothing hangs on it, and nothing is proved', () => {
    const { checks, said, verdicts } = check({ work: '#. Blorf the [scraper].' });
    expect(checks).toEqual(['sentence-read']);
    expect(said).not.toContain('Until');
    expect([...verdicts]).toEqual(['not proved']);
  });
});

describe('what a finding takes as right', () => {
  test('a valve that nobody shuts or locks is not asked back at the end', () => {
    const { checks } = check({
      change: [
        ['Shut the [air valve]', ''],
        ['Put your lock and tag on the [main isolator] and', '#. Put your lock and tag on the [main isolator].'],
        ['Take your lock and tag off', '#. Take your lock and tag off the [main isolator].'],
        ['Open the [air valve]', ''],
      ],
      work: '#. Clean the [scraper].',
    });
    expect(checks).toEqual(['hands-isolated']);
  });

  test('a lock that somebody put on is', () => {
    const { checks } = check({
      change: [
        ['Shut the [air valve]', ''],
        ['Take your lock and tag off', '#. Take your lock and tag off the [main isolator].'],
        ['Open the [air valve]', ''],
      ],
      work: '#. Clean the [scraper].',
    });
    expect(checks).toEqual(expect.arrayContaining(['hands-isolated', 'lock-off']));
  });

  test('two sources behind one isolator are one slip', () => {
    const { checks } = check({
      equipment: [
        [
          'supply: {kind: electrical',
          '      supply: {kind: electrical, size: 400 V, isolate: {main isolator: off}, try out: start button}\n      link: {kind: capacitor, size: 560 V DC, isolate: {main isolator: off}, settles in: 5 min}',
        ],
        ['drum bay: {endangered by', '      drum bay: {endangered by: [supply, link, air, drum weight], behind: [side guard]}'],
      ],
      change: [
        ['Switch the [main isolator] off', ''],
        ['Open the [dump valve].', '#. Open the [dump valve].\n#. Wait 5 min for the [link] to run down.'],
      ],
    });
    expect(checks.filter((one) => one.startsWith('hands-'))).toEqual(['hands-isolated']);
  });
});
