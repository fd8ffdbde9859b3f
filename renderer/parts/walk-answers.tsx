/** What is asked after a step of a walk, each question with its own answer: "it is over the limit: yes". */
import type { ReactNode } from 'react';
import type { Finding } from '../../procedures-schema/index.ts';
import { words } from '../words/words.ts';

export function WalkAnswers({ step }: { readonly step: Pick<Finding['walk'][number], 'answers'> }): ReactNode {
  if (step.answers === undefined) return null;
  return <i>({step.answers.map(({ asked, yes }) => `${asked}: ${yes ? words.yes : words.no}`).join('; ')})</i>;
}
