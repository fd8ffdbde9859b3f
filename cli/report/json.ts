/** The report for a program. Its form is a promise: fields are added, never renamed. Places count from 1; offsets of a fix are UTF-16 units after a byte-order mark. */
import type { Finding } from '../../procedures-schema/index.ts';
import type { Checked } from '../library.ts';

export function jsonReport({ findings, counts, read }: Checked): string {
  return `${JSON.stringify({ findings: findings.map(plainFinding), counts: { ...counts }, read: { ...read } }, undefined, 2)}\n`;
}

function plainFinding(finding: Finding): unknown {
  const { check, severity, message, file, range, steps, variants, walk, fix } = finding;
  const place = ({ line, column }: { line: number; column: number }): unknown => ({ line, column });
  return {
    check,
    severity,
    message,
    file,
    range: { start: place(range.start), end: place(range.end) },
    steps,
    variants,
    walk: walk.map(({ file: at, section, label, text, answers }) => ({
      file: at,
      section,
      label,
      text,
      ...(answers === undefined ? {} : { answers }),
    })),
    ...(fix
      ? { fix: { title: fix.title, edits: fix.edits.map(({ file: at, start, end, text }) => ({ file: at, start, end, text })) } }
      : {}),
  };
}
