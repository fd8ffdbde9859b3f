/** The people a procedure asks for against the people its steps name. */

import { proseSpan } from '../format/index.ts';
import type { ProcedureCheck } from './check.ts';
import { eachAction, eachProse } from './visit.ts';

const SECOND = /\b(?:(?:a|the|your) (?:second|other) person|two people|a helper|with a colleague|together with (?:a|the|your) \w+)\b/i;

export const peopleEnough: ProcedureCheck = {
  id: 'people-enough',
  scope: 'procedure',
  severity: 'error',
  question: 'Does the front matter ask for as many people as the steps need?',
  why: 'A technician sent alone to a job for two does it alone.',
  source: 'reference "formats" 7: required persons (DITA machinery task); common practice, no source',
  cases: [
    { name: 'a second person in the steps only', finds: 1, work: '#. Let a second person hold the [scraper].\n       ^^^^^^^^^^^^^^^' },
    { name: 'two asked for', finds: 0, front: 'people: 2\nroles: [second person]', work: '#. Let the second person hold the [scraper].' },
  ],
  *run({ file, head, read, tree }) {
    const asked = Number(/\d+/.exec(head.people ?? '')?.[0] ?? '1');
    if (asked >= 2) return;
    const draft = (span: { start: number; end: number }) => ({
      file,
      span,
      message: `The steps need a second person, and the front matter asks for ${head.people ?? 'nobody'}.`,
      actual: `people: ${head.people ?? '(not said)'}`,
      expected: 'people: 2',
    });
    for (const prose of eachProse(tree.sections.filter((section) => !section.prose).flatMap((section) => section.blocks))) {
      const found = SECOND.exec(prose.text);
      if (found) {
        yield draft(proseSpan(prose, found.index, found.index + found[0].length));
        return;
      }
    }
    for (const { action, span } of eachAction(read))
      if (action.role !== undefined) {
        yield draft(span);
        return;
      }
  },
};
