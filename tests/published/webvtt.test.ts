/**
 * Captions against the standard: the W3C cases for WebVTT through our reader (data/webvtt, its SOURCE.md says whence), the W3C's own parser
 * (webvtt-parser, CC0-1.0) over the same files and over what we write.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Cue, type CueNode, cueTime, readCueText, readVtt, writeVtt } from '../../procedures-schema/narration/index.ts';
import { secondParser } from '../support/second-parser.ts';

const folder = join(import.meta.dirname, 'data/webvtt');
const read = (name: string): string => readFileSync(join(folder, name), 'utf8');
const files = readdirSync(folder).filter((name) => name.endsWith('.vtt'));

interface Expected {
  readonly cueCount: number | null;
  readonly cues: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
}
const { files: expected } = JSON.parse(read('expected.json')) as { readonly files: Readonly<Record<string, Expected>> };

describe('the cases of the W3C', () => {
  test('none of the files is without an expectation', () => {
    expect(files.length).toBe(37);
    expect(files.filter((name) => expected[name] === undefined)).toEqual([]);
  });

  test.each(files)('%s', (name) => {
    const found = readVtt(read(name));
    const { cueCount, cues } = expected[name] as Expected;
    if (cueCount !== null) expect(found?.cues.length).toBe(cueCount);
    for (const [index, fields] of Object.entries(cues)) {
      const cue = found?.cues[Number(index)] as Cue;
      const got: Readonly<Record<string, unknown>> = {
        id: cue.id,
        text: cue.text,
        startTime: cue.start,
        endTime: cue.end,
        align: cue.settings.align,
        region: cue.settings.region ?? null,
      };
      for (const [field, value] of Object.entries(fields)) expect(got[field], `cue ${index} ${field}`).toEqual(value);
    }
  });

  test.each(['position', 'line'] as const)('settings-%s.vtt: what the file calls invalid leaves the setting as it was', (field) => {
    const invalid = (readVtt(read(`settings-${field}.vtt`))?.cues ?? []).filter(({ text }) => text.startsWith('invalid'));
    expect(invalid.length).toBeGreaterThan(5);
    for (const { settings, line } of invalid) expect(settings[field], `line ${line}`).toBe('auto');
  });
});

const names = Object.fromEntries(
  Object.entries(
    JSON.parse(readFileSync(join(import.meta.dirname, '../../node_modules/webvtt-parser/html-entities.json'), 'utf8')) as Record<
      string,
      string
    >,
  ).map(([name, text]) => [name.slice(1), text]),
);

describe.each(['entities', 'tags', 'text', 'timestamps', 'tree-building'])('the inside of cues: %s', (name) => {
  const cases = JSON.parse(read(`cue-text/${name}.json`)) as readonly { readonly text: string; readonly expectedTree: string }[];
  test.each(cases.map((one) => [JSON.stringify(one.text), one] as const))('%s', (_, { text, expectedTree }) => {
    const file = readVtt(`WEBVTT\n\n00:00:00.000 --> 00:00:01.000\n${text}`);
    expect(tree(readCueText(file?.cues[0]?.text ?? '', names))).toBe(expectedTree);
  });
});

/** The tree in the notation of the cases. */
function tree(nodes: readonly CueNode[], depth = 0): string {
  const line = (text: string): string => `| ${'  '.repeat(depth)}${text}\n`;
  return nodes
    .map((node) => {
      if (node.kind === 'text') return line(`"${node.text}"`);
      if (node.kind === 'time') return line(`<?timestamp ${cueTime(node.at)}>`);
      const attributes = [
        ...(node.classes.length > 0 ? [`class="${node.classes.join(' ')}"`] : []),
        ...(node.kind === 'lang' ? [`lang="${node.annotation}"`] : []),
        ...(node.kind === 'v' ? [`title="${node.annotation}"`] : []),
      ].map((attribute) => `| ${'  '.repeat(depth + 1)}${attribute}\n`);
      return `${line(`<${['c', 'v', 'lang'].includes(node.kind) ? 'span' : node.kind}>`)}${attributes.join('')}${tree(node.children, depth + 1)}`;
    })
    .join('');
}

describe('a second parser', () => {
  test.each(files)('%s: the same cues', (name) => {
    const ours = readVtt(read(name))?.cues ?? [];
    const theirs = secondParser(read(name)).cues;
    const form = (cue: { id: string; text: string }, start: number, end: number): string => `${start} ${end} ${cue.id} ${cue.text}`;
    expect(ours.map((cue) => form(cue, cue.start, cue.end)).sort()).toEqual(
      theirs.map((cue) => form(cue, cue.startTime, cue.endTime)).sort(),
    );
  });

  test.each(files.filter((name) => name.startsWith('settings-')))('%s: the same settings', (name) => {
    const told = ({ settings }: Cue) => [
      settings.vertical || 'horizontal',
      settings.line,
      settings.lineAlign,
      settings.position,
      settings.positionAlign,
      settings.size,
      settings.align,
    ];
    const ours = (readVtt(read(name))?.cues ?? []).map((cue) => `${cue.text} ${told(cue)}`);
    const theirs = secondParser(read(name)).cues.map(
      (cue) =>
        `${cue.text} ${[cue.direction, cue.linePosition, cue.lineAlign, cue.textPosition, cue.positionAlign, cue.size, cue.alignment]}`,
    );
    expect(ours).toEqual(theirs);
  });

  test('what we write is read back by both, whatever the words', () => {
    const cue = fc.record({
      id: fc.option(fc.string({ unit: 'grapheme', maxLength: 12 }), { nil: undefined }),
      start: fc.integer({ min: 0, max: 4_000_000 }),
      length: fc.integer({ min: 1, max: 20_000 }),
      text: fc.oneof(
        fc.string({ unit: 'grapheme', maxLength: 40 }),
        fc.constantFrom('a --> b', '<b> & "c"', 'one\n\ntwo', 'NOTE x', '&lt;', '0\0'),
      ),
    });
    fc.assert(
      fc.property(fc.array(cue, { maxLength: 6 }), (made) => {
        const cues = made
          .sort((a, b) => a.start - b.start)
          .map(({ id, start, length, text }) => ({
            ...(id === undefined ? {} : { id }),
            start: start / 1000,
            end: (start + length) / 1000,
            text,
          }));
        const written = writeVtt(cues, 'estimated -->\n\nall of it');
        const back = readVtt(written);
        expect(back?.cues.map(({ start, end }) => [start, end])).toEqual(cues.map(({ start, end }) => [start, end]));
        const plain = (text: string): string =>
          readCueText(text)
            .map((node) => (node.kind === 'text' ? node.text : '?'))
            .join('');
        const kept = (text: string): string =>
          text
            .replaceAll('\0', '\ufffd')
            .replace(/\r\n?/g, '\n')
            .replace(/\n(?:[^\S\n]*\n)+/g, '\n')
            .trim();
        expect(back?.cues.map(({ text }) => plain(text))).toEqual(cues.map(({ text }) => kept(text)));
        expect(secondParser(written).cues).toHaveLength(cues.length);
      }),
      { numRuns: 150 },
    );
  });
});
