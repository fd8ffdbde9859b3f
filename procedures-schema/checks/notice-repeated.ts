/** The same notice at three or more steps. */
import type { Notice } from '../format/index.ts';
import type { ProcedureCheck } from './check.ts';
import { noticeText } from './notice-text.ts';
import { eachNotice } from './visit.ts';

const SECTION = `${':::caution\nThe edge is sharp. It can cut your hand. Keep your hand off it.\n:::\n\n#. Clean the [scraper].\n\n'}`;

export const noticeRepeated: ProcedureCheck = {
  id: 'notice-repeated',
  scope: 'procedure',
  severity: 'advice',
  question: 'Is the same notice given at three or more steps of a section?',
  why: 'What holds for the whole section is said once under its heading, and then read.',
  source: 'ANSI Z535.6 section notices (kinds from memory)',
  cases: [
    { name: 'three times', finds: 1, work: SECTION.repeat(3) },
    { name: 'twice', finds: 0, work: SECTION.repeat(2) },
  ],
  *run({ file, tree }) {
    const same = new Map<string, Notice[]>();
    for (const { notice, section } of eachNotice(tree.sections)) {
      const key = `${section.id}\n${notice.word}\n${noticeText(notice).toLowerCase()}`;
      same.set(key, [...(same.get(key) ?? []), notice]);
    }
    for (const notices of same.values()) {
      const third = notices[2];
      if (third)
        yield {
          file,
          span: third.wordSpan,
          message: `This notice stands ${notices.length} times in one section.`,
          actual: `${notices.length} times`,
          expected: 'once, under the heading of the section',
          related: notices.slice(0, 2).map((notice) => ({ file, span: notice.wordSpan, message: 'the same notice' })),
        };
    }
  },
};
