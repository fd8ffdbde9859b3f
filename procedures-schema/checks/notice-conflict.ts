/** Orders about protection that contradict each other in one step. */
import type { ProcedureCheck } from './check.ts';
import { eachReading } from './visit.ts';

const GLOVES = /\bwear (?:\w+ )?gloves\b/i;
const NO_GLOVES =
  /\b(?:do not|never) wear (?:\w+ )?gloves\b|\bno gloves\b|\btake (?:off (?:your |the )?(?:\w+ )?gloves|(?:your |the )?(?:\w+ )?gloves off)\b/i;

export const noticeConflict: ProcedureCheck = {
  id: 'notice-conflict',
  scope: 'procedure',
  severity: 'error',
  question: 'Do the notices and words of one step contradict each other about gloves?',
  why: 'Gloves near rotating parts pull a hand in; without them an edge cuts. One step can ask for one only.',
  source: 'ISO 7010 P028 (do not wear gloves) with M009 (wear gloves), reference "safety notices" 5',
  cases: [
    {
      name: 'gloves and no gloves',
      finds: 1,
      work: ':::warning\nThe drum turns. It can crush your hand. Do not wear gloves.\n:::\n\n#. Wear gloves and clean the [scraper].',
    },
    {
      name: 'gloves only',
      finds: 0,
      work: ':::caution\nThe edge is sharp. It can cut your hand. Wear gloves.\n:::\n\n#. Clean the [scraper].',
    },
  ],
  *run({ file, read }) {
    for (const step of read.steps) {
      const words = [...eachReading({ ...read, steps: [step] })].map(({ prose }) => prose.text).join(' ');
      const all = `${step.notices.map((notice) => notice.text).join(' ')} ${words}`;
      if (!NO_GLOVES.test(all) || !GLOVES.test(all.replace(new RegExp(NO_GLOVES.source, 'gi'), ''))) continue;
      yield {
        file,
        span: step.at.step.lead.span,
        message: `Step ${step.at.fullLabel} asks for gloves and forbids them.`,
        actual: 'both',
        expected: 'one of them, or two steps',
        steps: [step.at.fullLabel],
      };
    }
  },
};
