/** Sentences too long to be held in the head with a tool in the hand. */
import { proseSpan } from '../format/index.ts';
import type { ProcedureCheck } from './check.ts';
import { eachSentence } from './visit.ts';

/** Twenty words in procedures: ASD-STE100 (from memory). Counted above that, with room for names of several words. */
const WORDS = 26;

export const sentenceLength: ProcedureCheck = {
  id: 'sentence-length',
  scope: 'procedure',
  severity: 'advice',
  question: 'Can every sentence of a step be held in the head?',
  why: 'The reader looks away to the machine after every sentence. What was not held is not done.',
  source: 'ASD-STE100 (from memory): at most 20 words a sentence in procedures; we leave room for long names',
  cases: [
    {
      name: 'a long one',
      finds: 1,
      work: '#. Clean the [scraper] from the middle to the left end and then from the middle to the right end with a soft brush that has not been used on any other machine in this hall before.',
    },
    { name: 'a short one', finds: 0, work: '#. Clean the [scraper] from the middle to both ends.' },
  ],
  *run({ file, read }) {
    for (const { sentence, span, step, prose } of eachSentence(read)) {
      const words = sentence.text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
      if (words > WORDS)
        yield {
          file,
          span: proseSpan(prose, sentence.at, sentence.end) ?? span,
          message: `This sentence has ${words} words.`,
          actual: `${words} words`,
          expected: `at most about ${WORDS}; two sentences, or two steps`,
          steps: [step.fullLabel],
        };
    }
  },
};
