/** `handsclear explain`: what a check asks, why, on what authority, and its worked examples: the very cases the tests run. */
import { type CheckCase, checks } from '../../procedures-schema/index.ts';
import { CannotRun, type Command } from '../command.ts';
import { nearest } from '../nearest.ts';
import { labelled, wrap } from '../report/wrap.ts';
import { unreadableFile } from '../unreadable-file.ts';

interface Explained {
  readonly id: string;
  readonly severity: string;
  readonly question: string;
  readonly why: string;
  readonly source: string;
  readonly cases: readonly CheckCase[];
}

const all = (): readonly Explained[] => [...checks, { ...unreadableFile, cases: [] }].sort((a, b) => (a.id < b.id ? -1 : 1));

export const explain: Command = {
  name: 'explain',
  summary: 'say what a check asks, why, on what authority, with examples; without a name: list all',
  operands: ['[check]'],
  options: [],
  about: 'The name of a check stands in brackets behind the severity of each finding.',
  examples: [
    { line: 'handsclear explain', does: 'every check with its question' },
    { line: 'handsclear explain tool-not-listed', does: 'one check in full, with examples that do and do not find something' },
  ],
  async run({ operands }, io) {
    const [name] = operands;
    if (name === undefined) {
      io.out(`${all().map(listed).join('\n')}\n`);
      return 0;
    }
    const found = all().find((one) => one.id === name.toLowerCase().replaceAll(/^\[|\]$/g, ''));
    if (!found) {
      const near = nearest(
        name,
        all().map((one) => one.id),
      );
      throw new CannotRun(`There is no check "${name}".${near ? ` Did you mean ${near}?` : ''} All of them: handsclear explain`);
    }
    io.out(`${explained(found, io.width).join('\n')}\n`);
    return 0;
  },
};

const listed = ({ id, severity, question }: Explained): string => `${id.padEnd(26)} ${severity.padEnd(8)} ${question}`;

function explained({ id, severity, question, why, source, cases }: Explained, width: number): readonly string[] {
  return [
    `${id} (${severity})`,
    ...wrap(question, width, '  '),
    ...labelled('why', why, width, 11),
    ...labelled('source', source, width, 11),
    ...cases.flatMap((one) => [
      '',
      `Example: ${one.name} (${one.finds === 0 ? 'nothing to find' : `finds ${one.finds}`})`,
      ...exampleFiles(one),
    ]),
  ];
}

/** A case says only how it differs from the tests' small safe procedure; so does its example. */
function exampleFiles({ front, work, change, body, files }: CheckCase): readonly string[] {
  const text = (label: string, lines: string | undefined): readonly string[] =>
    lines === undefined
      ? []
      : [
          `  ${label}`,
          ...lines
            .trimEnd()
            .split('\n')
            .map((line) => `    ${line}`.trimEnd()),
        ];
  return [
    ...text('front matter', front),
    ...text('steps, with the machine safe and open', work),
    ...(change ?? []).flatMap(([from, to]) =>
      text(to === '' ? 'without the line' : 'instead of the line', from).concat(to === '' ? [] : text('this', to)),
    ),
    ...text('sections', body),
    ...Object.entries(files ?? {}).flatMap(([path, content]) => text(path, content)),
  ];
}
