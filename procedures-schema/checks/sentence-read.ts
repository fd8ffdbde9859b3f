/** A sentence that could not be read, and what hangs on it. Where a name that nobody registered is the reason, `names-known` tells it. */
import type { Sentence } from '../reading/index.ts';
import type { ProcedureCheck } from './check.ts';
import { hangingOn, strangerIn, unreadAt } from './hanging.ts';
import { eachSentence, placeName } from './visit.ts';

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What stood in the way, in the reader's words; nothing where that is the sentence as a whole. */
function reason({ text, why }: Sentence): string {
  if (why === undefined) return '';
  const [, piece] = /^"(.*)" could not be read$/s.exec(why) ?? [];
  if (piece === undefined) return `: ${why}`;
  return piece.length < text.replace(/[.\s]+$/, '').length ? `, because of "${piece}"` : '';
}

export const sentenceRead: ProcedureCheck = {
  id: 'sentence-read',
  scope: 'procedure',
  severity: 'error',
  question: 'Was every sentence of the steps that names a thing or an action read?',
  why: 'What was not read protects nobody: the proof must take it for hands in every open zone.',
  source: 'semantics rule 19',
  cases: [
    { name: 'a verb nobody knows', finds: 1, work: '#. Blorf the [scraper].' },
    { name: 'a name nobody knows is told by its own check', finds: 0, work: '#. Clean the [scrapper].' },
    { name: 'the fixture as it is', finds: 0 },
  ],
  *run(facts) {
    for (const place of eachSentence(facts.read)) {
      const { sentence, span } = place;
      const violation = sentence.status === 'unread' && !strangerIn(facts, place) ? unreadAt(facts, span) : undefined;
      if (!violation) continue;
      const { more, related } = hangingOn(violation);
      yield {
        file: facts.file,
        span: violation.at.span,
        message: `${capital(placeName(violation.at))} has a sentence that could not be read${reason(sentence)}. So nothing is proved past it.${more}`,
        expected: 'one action and one registered thing a sentence, or a reading said outright',
        steps: violation.at.step ? [violation.at.step.fullLabel] : [],
        ...(related.length > 0 ? { related } : {}),
      };
    }
  },
};
