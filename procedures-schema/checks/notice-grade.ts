/** The signal word fits the harm. */

import type { Draft } from '../finding.ts';
import type { Notice, SignalWord } from '../format/index.ts';
import type { ProcedureCheck, ProcedureFacts } from './check.ts';
import { CERTAIN, GRAVE, INJURY, LIGHT, POSSIBLE } from './harm.ts';
import { noticeText } from './notice-text.ts';
import { eachNotice } from './visit.ts';

export const noticeGrade: ProcedureCheck = {
  id: 'notice-grade',
  scope: 'procedure',
  severity: 'error',
  question: 'Does the signal word fit the harm the notice names?',
  why: 'The word is all that many people read. Graded too low it hides a death; graded too high it is soon not believed.',
  source: 'ANSI Z535 signal words: will or could cause death or serious injury, could cause minor injury, no injury',
  cases: [
    {
      name: 'crushing as CAUTION',
      finds: 1,
      work: ':::caution\n   ^^^^^^^\nThe drum can turn. It could crush your hand. Leave the [drum pin] in.\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'a cut as DANGER',
      finds: 1,
      work: ':::danger\n   ^^^^^^\nThe edge is sharp. It will cut your hand. Keep your hand off it.\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'injury as NOTICE',
      finds: 1,
      work: ':::notice\n   ^^^^^^\nThe edge is sharp. It can cut your hand. Keep your hand off it.\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'DANGER that only could',
      finds: 1,
      work: ':::danger\n   ^^^^^^\nThe drum can fall. It could crush you. Leave the [drum pin] in.\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'DANGER that will',
      finds: 0,
      work: ':::danger\nThe drum falls. It will crush you. Leave the [drum pin] in.\n:::\n\n#. Clean the [scraper].',
    },
    {
      name: 'CAUTION of a cut',
      finds: 0,
      work: ':::caution\nThe edge is sharp. It can cut your hand. Keep your hand off it.\n:::\n\n#. Clean the [scraper].',
    },
  ],
  *run(facts) {
    for (const { notice } of eachNotice(facts.tree.sections)) yield* judge(facts, notice);
  },
};

function* judge({ file, source }: ProcedureFacts, notice: Notice): Iterable<Draft> {
  const text = noticeText(notice);
  const right = wordFor(text);
  if (right === undefined || right === notice.word) return;
  const { word, wordSpan } = notice;
  const typed = source.text.slice(wordSpan.start, wordSpan.end);
  yield {
    file,
    span: wordSpan,
    message: `${word.toUpperCase()} does not fit: ${reason(text, right)}.`,
    actual: word.toUpperCase(),
    expected: right.toUpperCase(),
    fix: {
      title: `Make it ${right.toUpperCase()}`,
      edits: [{ file, start: wordSpan.start, end: wordSpan.end, text: typed === typed.toUpperCase() ? right.toUpperCase() : right }],
    },
  };
}

/** Undefined where the words do not decide. */
function wordFor(text: string): SignalWord | undefined {
  if (GRAVE.test(text)) {
    const sentence = text.split(/(?<=[.!;])\s+/).find((part) => GRAVE.test(part)) ?? text;
    if (CERTAIN.test(sentence) && !POSSIBLE.test(sentence)) return 'danger';
    if (POSSIBLE.test(sentence)) return 'warning';
    return undefined;
  }
  if (LIGHT.test(text)) return 'caution';
  return INJURY.test(text) ? undefined : 'notice';
}

function reason(text: string, right: SignalWord): string {
  const harm = (GRAVE.exec(text) ?? LIGHT.exec(text))?.[0];
  switch (right) {
    case 'danger':
      return `"${harm}" is said to be certain ("will"), which is DANGER`;
    case 'warning':
      return `"${harm}" is said to be possible ("can", "could"), which is WARNING`;
    case 'caution':
      return `"${harm}" is a minor injury, which is CAUTION`;
    case 'notice':
      return 'it names no injury to people, which is NOTICE';
  }
}
