import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type FindOptions, findText, replaceText } from '../../../procedures-schema/assist/index.ts';
import { compilePattern } from '../../../procedures-schema/assist/pattern.ts';
import { matchFrom } from '../../../procedures-schema/assist/pattern-run.ts';

const TEXTS = [
  { path: 'procedures/A.md', text: 'Shut the air valve.\nOpen the Air valve, then the valves.\n' },
  { path: 'registers/equipment.yaml', text: 'air valve: {zone: bay}\r\n# Air\r\n' },
];

const found = (query: string, options: FindOptions = {}): string => {
  const answer = findText(TEXTS, query, options);
  if (!answer.ok) return `no: ${answer.reason}`;
  return answer.files.map(({ file, found: list }) => `${file} ${list.map(({ line, column }) => `${line}:${column}`).join(' ')}`).join('\n');
};
const replaced = (query: string, by: string, options: FindOptions = {}): string => {
  const answer = replaceText(TEXTS, query, by, options);
  return answer.ok ? answer.files.flatMap(({ lines }) => lines.flatMap(({ after }) => after)).join('\n') : `no: ${answer.reason}`;
};

describe('finding', () => {
  test('plain, in any case, every file', () => {
    expect(found('air valve')).toBe('procedures/A.md 1:10 2:10\nregisters/equipment.yaml 1:1');
    expect(found('Air', { matchCase: true })).toBe('procedures/A.md 2:10\nregisters/equipment.yaml 2:3');
    expect(found('valve', { wholeWord: true })).toBe('procedures/A.md 1:14 2:14\nregisters/equipment.yaml 1:5');
    expect(found('[')).toBe('');
    expect(found('')).toBe('no: Type what to look for.');
  });
  test('by pattern', () => {
    expect(found('valves?', { pattern: true })).toBe('procedures/A.md 1:14 2:14 2:30\nregisters/equipment.yaml 1:5');
    expect(found('^(open|shut)', { pattern: true })).toBe('procedures/A.md 1:1 2:1');
    expect(found('bay\\}$', { pattern: true })).toBe('registers/equipment.yaml 1:19');
    expect(found('x*', { pattern: true })).toBe('');
  });
  test('stops at the most it was asked for, and says so', () => {
    expect(findText(TEXTS, 'a', { most: 2 })).toMatchObject({ ok: true, count: 2, more: true });
  });
  test('a letter whose small form is longer leaves the places right', () => {
    const answer = findText([{ path: 'a.md', text: 'İ valve' }], 'VALVE');
    expect(answer).toMatchObject({ ok: true, files: [{ found: [{ column: 3 }] }] });
  });
});

describe('replacing', () => {
  test('plain text is put in as it is', () => {
    expect(replaced('air valve', '$1 valve', { matchCase: true })).toBe('Shut the $1 valve.\n$1 valve: {zone: bay}');
  });
  test('a pattern fills its groups', () => {
    expect(replaced('(air) (valve)', '$2 of the $1 ($&, $$5)', { pattern: true, matchCase: true })).toContain(
      'Shut the valve of the air (air valve, $5).',
    );
  });
  test('one match alone, named by where it begins', () => {
    expect(replaced('valve', 'cock', { only: 9 + 20 })).toBe('no: Nothing would change.');
    expect(replaceText(TEXTS.slice(0, 1), 'valve', 'cock', { only: 9 + 24 })).toMatchObject({
      ok: true,
      files: [{ edits: [{ start: 33, end: 38, text: 'cock' }] }],
    });
  });
  test('nothing to change is said', () => {
    expect(replaced('air', 'air', { matchCase: true })).toBe('no: Nothing would change.');
  });
});

describe('patterns', () => {
  test.each(['(', ')', '[a', 'a{3,1}', '*a', 'a\\', '(?=a)', '(a)\\1', '\\q', '(?<n>a)', '(((a{50}){50}){50})', '^*'])(
    '%s is refused with a sentence',
    (query) => {
      expect(found(query, { pattern: true })).toMatch(/^no: .+\.$/);
    },
  );

  test('match where the engine of JavaScript does, groups and all', () => {
    const atom = fc.constantFrom('a', 'b', 'c', '.', '[ab]', '[^a]', '\\b', '^', '$', '\\w', '\\s', ' ');
    const { pattern } = fc.letrec((tie) => ({
      pattern: fc.oneof(
        { maxDepth: 4 },
        atom,
        fc.tuple(tie('pattern'), tie('pattern')).map(([a, b]) => `${a}${b}`),
        fc.tuple(tie('pattern'), tie('pattern')).map(([a, b]) => `(?:${a}|${b})`),
        tie('pattern').map((a) => `(${a})`),
        fc
          .tuple(
            fc.constantFrom('a', 'b', '[ab]', '(?:ab)', '(?:a|bc)', '(?:b|ab)'),
            fc.constantFrom('*', '+', '?', '*?', '+?', '??', '{2}', '{1,2}', '{2,}'),
          )
          .map(([a, b]) => a + b),
      ),
    }));
    const text = fc.string({ unit: fc.constantFrom('a', 'b', 'c', ' ', '\n', 'A'), maxLength: 12 });
    fc.assert(
      fc.property(pattern, text, fc.boolean(), (source, words, fold) => {
        const query = source as string;
        const own = matchFrom(compilePattern(query, fold), words, 0);
        const other = new RegExp(query, `md${fold ? 'i' : ''}`).exec(words) as
          | (RegExpExecArray & { indices: ([number, number] | undefined)[] })
          | null;
        expect(own ? [own.start, own.end] : null).toEqual(other ? [other.index, other.index + other[0].length] : null);
      }),
      { numRuns: 1500 },
    );
  });

  test('work grows with the text and no faster, on a pattern that makes a backtracking engine double its work with each letter', () => {
    // Counted in looks at a letter, not in time. Source of the pattern: R. Cox, "Regular Expression Matching Can Be Simple And Fast" (2007).
    const looks = (n: number): number => {
      let count = 0;
      const { code, groups } = compilePattern(`(?:a?){20}a{20}`, false);
      const counted = code.map((one) =>
        one.op === 'char'
          ? {
              op: 'char' as const,
              matches: (unit: number) => {
                count += 1;
                return one.matches(unit);
              },
            }
          : one,
      );
      matchFrom({ code: counted, groups }, 'a'.repeat(n), 0);
      return count;
    };
    expect(looks(4000)).toBeLessThan(2.2 * looks(2000));
    // A table of what may begin a match is made once: 128 letters, 21 looks each.
    expect(looks(40)).toBeLessThan(40 * 60 + 128 * 21);
  });
});
