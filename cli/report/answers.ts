/** What is asked on a walk and what was answered, each question with its own answer: "it is over the limit: yes". */
import type { Finding } from '../../procedures-schema/index.ts';

export const answersText = (answers: Finding['walk'][number]['answers']): string =>
  answers === undefined || answers.length === 0
    ? ''
    : ` (${answers.map(({ asked, yes }) => `${asked}: ${yes ? 'yes' : 'no'}`).join('; ')})`;
