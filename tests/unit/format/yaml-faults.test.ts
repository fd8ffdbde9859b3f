/** A slip in YAML is told once, at the line it was made in. Each case is a register of the trade with one or two characters changed. */
import { expect, test } from 'vitest';
import { readYaml } from '../../../procedures-schema/format/index.ts';

const GOOD = `families:
  baler:
    also: [press]
    energy:
      mains supply:
        kind: electrical
        size: 400 V
        isolate: {main isolator: off}
      ram:
        kind: hydraulic
        relieve: {bleed valve: open}
    points:
      main isolator: {positions: [on, off], lockable: yes}
      bleed valve: {positions: [open, shut], lockable: yes}
    covers:
      panel: {zone: pump bay, fasteners: screws}
models:
  B-1: {family: baler}
`;

/** Line numbers and the first words of each problem. */
const told = (...changes: readonly (readonly [string, string])[]): string[] => {
  let text = GOOD;
  for (const [from, to] of changes) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  return readYaml('registers/equipment.yaml', text).problems.map(
    ({ span, message }) => `${text.slice(0, span.start).split('\n').length}: ${message.split(/[.:]/)[0]}`,
  );
};

const INDENT = 'This line is indented differently from the ones it belongs with';

test('in good order: nothing', () => {
  expect(told()).toEqual([]);
});

test.each([
  ['no space after a colon', ['also: [press]', 'also:[press]'], /^3: /],
  ['a star before a value', ['also: [press]', 'also: *[press]'], /^3: A star/],
  ['a bracket that is never closed', ['[on, off]', '[on, off'], /^13: This bracket or brace is never closed/],
  [
    'a brace that is never closed',
    ['{zone: pump bay, fasteners: screws}', '{zone: pump bay, fasteners: screws'],
    /^16: This bracket or brace/,
  ],
  ['a brace that is never opened', ['{zone: pump bay, fasteners: screws}', 'zone: pump bay, fasteners: screws}'], /^16: A colon/],
  ['a double quote that is never closed', ['size: 400 V', 'size: "400 V'], /^7: This quote is never closed/],
  ['a single quote that is never closed', ['size: 400 V', "size: '400 V"], /^7: This quote is never closed/],
  ['a tab', ['        size: 400 V', '\tsize: 400 V'], /^7: A tab/],
  ['the first of several fields stands apart', ['      mains supply:', '     mains supply:'], new RegExp(`^5: ${INDENT}`)],
  ['a field hangs under a value', ['        size: 400 V', '         size: 400 V'], new RegExp(`^7: ${INDENT}`)],
  ['a field stands one too far out', ['      ram:', '     ram:'], new RegExp(`^9: ${INDENT}`)],
] as const)('%s: once, where it is', (_, change, expected) => {
  const problems = told(change);
  expect(problems).toEqual([expect.stringMatching(expected)]);
});

test('two slips are two', () => {
  expect(told(['size: 400 V', 'size: "400 V'], ['[open, shut]', '[open, shut'])).toEqual([
    expect.stringMatching(/^7: This quote/),
    expect.stringMatching(/^14: This bracket/),
  ]);
});

test('a register between the fences of Markdown', () => {
  const { problems } = readYaml('registers/equipment.yaml', `\`\`\`yaml\n${GOOD}\`\`\`\n`);
  expect(problems.map(({ span, message }) => [span.start, message.split(';')[0]])).toEqual([
    [0, 'This is a fence of Markdown'],
    [GOOD.length + 8, 'This is a fence of Markdown'],
  ]);
});

test('lines end as on other systems', () => {
  const text = GOOD.replace('size: 400 V', 'size: "400 V').replaceAll('\n', '\r\n');
  const { problems } = readYaml('registers/equipment.yaml', text);
  expect(problems.map(({ span }) => text.slice(span.start, span.start + 4))).toEqual(['"400']);
});
