/** Checks whose whole work was done while reading the file: they take the problems of one format rule and word the rest. */
import type { Draft } from '../finding.ts';
import type { FormatProblem, FormatRule } from '../format/index.ts';
import type { LibraryCheck, LibraryFacts } from './check.ts';

type Words = Pick<LibraryCheck, 'id' | 'severity' | 'question' | 'why' | 'source' | 'cases'>;

/** Whether YAML was not read to its end as it was meant. */
export const isBroken = (problems: readonly FormatProblem[]): boolean => problems.some(({ broken }) => broken === true);

/** A check that reports every problem of `rules`, in procedures, guides and registers alike. */
export function formCheck(words: Words, rules: readonly FormatRule[]): LibraryCheck {
  return {
    ...words,
    scope: 'library',
    *run(library) {
      for (const { file, problems } of filesOf(library))
        for (const problem of problems) if (rules.includes(problem.rule)) yield draftOf(file, problem);
    },
  };
}

function* filesOf(library: LibraryFacts): Iterable<{ file: string; problems: readonly FormatProblem[] }> {
  for (const { file, problems } of [...library.registerFiles, ...library.films]) yield { file: file.source.path, problems };
  for (const { file, problems } of library.procedures) yield { file, problems };
  for (const { file, problems } of library.guides) yield { file, problems };
}

function draftOf(file: string, problem: FormatProblem): Draft {
  return {
    file,
    span: problem.span,
    message: problem.message,
    ...(problem.actual === undefined ? {} : { actual: problem.actual }),
    ...(problem.expected === undefined ? {} : { expected: problem.expected }),
    ...(problem.replacement === undefined
      ? {}
      : {
          fix: {
            title: problem.replacement.title,
            edits: [{ file, start: problem.replacement.span.start, end: problem.replacement.span.end, text: problem.replacement.text }],
          },
        }),
  };
}
