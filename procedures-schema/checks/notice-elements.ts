/** A notice says the hazard, what happens, and how to avoid it. */

import type { ProcedureCheck } from './check.ts';
import { AVOID, DAMAGE, HAZARD, INJURY } from './harm.ts';
import { noticeText } from './notice-text.ts';
import { eachNotice, listed } from './visit.ts';

export const noticeElements: ProcedureCheck = {
  id: 'notice-elements',
  scope: 'procedure',
  severity: 'error',
  question: 'Does every notice say the hazard, what happens, and how to avoid it?',
  why: 'A notice that names no hazard frightens; one that says no way out helps nobody.',
  source: 'OASIS DITA 1.3 hazardstatement: typeofhazard and howtoavoid compulsory, consequence optional; ANSI Z535.6 (from memory)',
  cases: [
    {
      name: 'no way out',
      finds: 1,
      work: ':::warning\n^^^^^^^^^^\nThe drum can turn. It could crush your hand.\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'no consequence',
      finds: 1,
      work: ':::warning\n^^^^^^^^^^\nThe drum can turn. Keep your hands out.\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'all three',
      finds: 0,
      work: ':::warning\nThe drum can turn. It could crush your hand. Leave the [drum pin] in.\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'a NOTICE of damage needs no injury',
      finds: 0,
      work: ':::notice\nToo much grease ruins the seal. Wipe off what is too much.\n:::\n\n#. Clean the [scraper].',
    },
  ],
  *run({ file, tree }) {
    for (const { notice } of eachNotice(tree.sections)) {
      const text = noticeText(notice);
      const missing: string[] = [];
      if (!HAZARD.test(text)) missing.push('the hazard');
      if (!(notice.word === 'notice' ? DAMAGE.test(text) || INJURY.test(text) : INJURY.test(text))) missing.push('what happens');
      if (!AVOID.test(text)) missing.push('how to avoid it');
      if (missing.length === 0) continue;
      yield {
        file,
        span: { start: notice.span.start, end: notice.wordSpan.end },
        message: `This ${notice.word} does not say ${listed(missing, 'or')}.`,
        actual: text === '' ? 'an empty notice' : text,
        expected: 'hazard, consequence, avoidance: "The roller turns. It can crush a hand. Keep the lock on."',
        severity:
          missing.includes('how to avoid it') || missing.includes('the hazard') ? 'error' : notice.word === 'notice' ? 'advice' : 'warning',
      };
    }
  },
};
