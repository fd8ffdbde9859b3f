/** A hook that keeps the worker's answer to one question, asked again whenever the library was checked anew. */
import { useEffect, useState } from 'react';
import type { Answer, Ask, QueryName } from '../worker/queries/queries.ts';
import { say, shown } from './shown.ts';
import { core } from './workspace.ts';

/** Undefined until the first answer; after that the last one stands until the next comes. */
export function useAnswer<Q extends QueryName>(query: Q, ask: Ask<Q> | undefined): Answer<Q> | undefined {
  const { revision } = shown.usePick('revision');
  const [answer, setAnswer] = useState<{ key: string; value: Answer<Q> }>();
  const key = ask === undefined ? '' : JSON.stringify(ask);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the question is compared by its words, and asked again after each check
  useEffect(() => {
    if (ask === undefined || revision === 0) return;
    let late = false;
    core.ask(query, ask).then(
      (value) => {
        if (!late) setAnswer({ key, value });
      },
      (error: Error) => say(error.message, true),
    );
    return () => {
      late = true;
    };
  }, [key, revision]);
  return answer?.key === key ? answer.value : undefined;
}
