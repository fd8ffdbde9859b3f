/** A sentence that could not be read. */
import { flowCheck } from './flow-check.ts';
import { placeName } from './visit.ts';

export const sentenceRead = flowCheck({
  id: 'sentence-read',
  severity: 'error',
  question: 'Was every sentence of the steps that names a thing or an action read?',
  why: 'What was not read protects nobody: the proof must take it for hands in every open zone.',
  source: 'semantics rule 19',
  cases: [
    { name: 'a verb nobody knows', finds: 1, work: '#. Blorf the [scraper].' },
    { name: 'the fixture as it is', finds: 0 },
  ],
  rules: ['unread'],
  message: (v) => `${placeName(v.at)} has a sentence that could not be read, so nothing is proved past it.`,
  expected: () => 'one action and one registered thing a sentence, or a reading said outright',
});
