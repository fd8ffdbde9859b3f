/** The one finding that is not the core's: a file that the disk or its encoding kept from being read. In the form of a check, so that `explain` knows it. */

import type { Refusal } from '../electron/host/files/index.ts';
import type { Finding } from '../procedures-schema/index.ts';

export const unreadableFile = {
  id: 'unreadable-file',
  severity: 'error',
  question: 'Can every file of the library be read as UTF-8 text, from inside the library?',
  why: 'What was not read was not checked, so nothing that depends on it may be published.',
  source: 'common practice, no source',
} as const;

export function refusalFinding({ path, line, column, message, expected }: Refusal): Finding {
  const place = { line, column, offset: 0 };
  return {
    check: unreadableFile.id,
    severity: unreadableFile.severity,
    file: path,
    span: { start: 0, end: 0 },
    range: { start: place, end: place },
    message,
    expected,
    why: unreadableFile.why,
    related: [],
    steps: [],
    variants: [],
    walk: [],
  };
}
