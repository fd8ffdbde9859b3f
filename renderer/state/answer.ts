/** A hook that keeps the worker's answer to one question, asked again whenever the library was checked anew. */
import { useEffect, useState } from 'react';
import type { Answer, Ask, QueryName } from '../worker/queries/queries.ts';
import { say, shown } from './shown.ts';
import { core } from './workspace.ts';

/**
 * Undefined until the first answer; after that the last one stands until the next comes. `pause`: milliseconds of quiet before a question that
 * takes long is asked again, so that findings never wait for it.
 */
export function useAnswer<Q extends QueryName>(query: Q, ask: Ask<Q> | undefined, pause = 0): Answer<Q> | undefined {
  const { revision } = shown.usePick('revision');
  const [answer, setAnswer] = useState<{ key: string; value: Answer<Q> }>();
  const key = ask === undefined ? '' : JSON.stringify(ask);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the question is compared by its words, and asked again after each check
  useEffect(() => {
    if (ask === undefined || revision === 0) return;
    let late = false;
    const put = (): void =>
      void core.ask(query, ask).then(
        (value) => {
          if (!late) setAnswer({ key, value });
        },
        (error: Error) => say(error.message, true),
      );
    const timer = pause > 0 ? setTimeout(put, pause) : undefined;
    if (timer === undefined) put();
    return () => {
      late = true;
      clearTimeout(timer);
    };
  }, [key, revision]);
  return answer?.key === key ? answer.value : undefined;
}
