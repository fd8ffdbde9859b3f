/** Caption files read in both forms; what is broken is left out and named. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { captionTexts, readCaptions, readSrt } from '../../../procedures-schema/narration/index.ts';

const cues = (text: string) => readCaptions(text)?.cues.map(({ id, start, end, text: words }) => `${id}|${start}|${end}|${words}`);

describe('SRT', () => {
  test('number, times, lines', () => {
    const text = '1\n00:00:01,000 --> 00:00:02,500\nSwitch off\nthe isolator.\n\n2\n00:00:03,000 --> 00:00:04,000\nWait.\n';
    expect(cues(text)).toEqual(['1|1|2.5|Switch off\nthe isolator.', '2|3|4|Wait.']);
  });
  test('CRLF, a byte-order mark, points for commas, no number, no blank line between', () => {
    const text = '\ufeff00:00:01.000 --> 00:00:02.000\r\nOne.\r\n2\r\n1:00:03,5 --> 01:00:04,000 X1:10\r\nTwo.';
    expect(cues(text)).toEqual(['|1|2|One.', '2|3603.5|3604|Two.']);
  });
  test('a value alone on a line is words, not the number of a cue', () => {
    expect(cues('1\n00:00:01,000 --> 00:00:02,000\nSet it to\n48\n\n2\n00:00:03,000 --> 00:00:04,000\nnewton metres.\n')).toEqual([
      '1|1|2|Set it to\n48',
      '2|3|4|newton metres.',
    ]);
  });
  test('a bad time costs its own cue and is named with its line', () => {
    const { cues: read, problems } = readSrt('1\n00:00:01,000 --> soon\nOne.\n\n2\n00:00:03,000 --> 00:00:04,000\nTwo.\n');
    expect(read.map(({ text }) => text)).toEqual(['Two.']);
    expect(problems).toEqual([{ line: 2, message: '"00:00:01,000 --> soon" is no pair of times; the cue is left out.' }]);
  });
});

test('neither form: undefined', () => {
  expect(readCaptions('Just words.')).toBeUndefined();
});

test('no text makes a reader fail', () => {
  const line = fc.constantFrom(
    'WEBVTT',
    '',
    '00:00:01.000 --> 00:00:02.000',
    '00:00:01,000 --> 9',
    '-->',
    'REGION',
    'id:a',
    'NOTE',
    '7',
    '<v',
    '&',
  );
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string({ unit: 'binary', maxLength: 80 }),
        fc.array(line, { maxLength: 12 }).map((lines) => lines.join('\n')),
      ),
      (text) => {
        for (const { start, end } of [...(readCaptions(text)?.cues ?? []), ...(readCaptions(`WEBVTT\n\n${text}`)?.cues ?? [])]) {
          expect(start).toBeGreaterThanOrEqual(0);
          expect(end).toBeGreaterThanOrEqual(0);
        }
      },
    ),
    { numRuns: 300 },
  );
});

test('captions are short lines; a value is not parted from its unit', () => {
  const texts = captionTexts(
    'Tighten the four motor foot bolts that hold it to 48 N·m in a cross pattern. Then go to section Close up and do step 4.',
  );
  for (const line of texts.flatMap((text) => text.split('\n'))) expect(line.length).toBeLessThanOrEqual(42);
  expect(texts.join('\n')).toMatch(/48 N·m/);
  expect(texts.join(' ').replaceAll('\n', ' ')).toBe(
    'Tighten the four motor foot bolts that hold it to 48 N·m in a cross pattern. Then go to section Close up and do step 4.',
  );
});
