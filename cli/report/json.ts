/** The report for a program. Its form is a promise: fields are added, never renamed. Places count from 1; offsets of a fix are UTF-16 units after a byte-order mark. */
import type { Finding } from '../../procedures-schema/index.ts';
import { CAUTION } from '../help.ts';
import type { Checked } from '../library.ts';

export function jsonReport({ findings, counts, read, files }: Checked): string {
  const report = { caution: CAUTION, findings: findings.map(plainFinding), counts: { ...counts }, read: { ...read }, files };
  return `${JSON.stringify(report, undefined, 2)}\n`;
}

function plainFinding(finding: Finding): unknown {
  const { check, severity, message, actual, expected, why, related, file, range, steps, variants, walk, fix } = finding;
  const place = ({ line, column }: { line: number; column: number }): unknown => ({ line, column });
  return {
    check,
    severity,
    message,
    ...(actual === undefined ? {} : { actual }),
    ...(expected === undefined ? {} : { expected }),
    why,
    file,
    range: { start: place(range.start), end: place(range.end) },
    steps,
    variants,
    related: related.map((one) => ({ file: one.file, message: one.message })),
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
