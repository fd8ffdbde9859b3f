/** A hook that keeps the worker's answer to one question, asked again whenever the library was checked anew; only another answer has anything drawn. */
import { useEffect, useRef, useState } from 'react';
import type { Answer, Ask, QueryName } from '../worker/queries/queries.ts';
import { say, shown } from './shown.ts';
import { core } from './workspace.ts';

const NOT_YET = { answer: undefined, refused: undefined, known: false };

/** `refused`: why there is no answer to this question; it was said too. */
export interface Answered<Q extends QueryName> {
  readonly answer: Answer<Q> | undefined;
  readonly refused: string | undefined;
  /** That there is none is an answer too. */
  readonly known: boolean;
}

export const useAnswer = <Q extends QueryName>(query: Q, ask: Ask<Q> | undefined, pause = 0): Answer<Q> | undefined =>
  useAnswered(query, ask, pause).answer;

/**
 * Undefined until the first answer; after that the last one stands until the next comes. `pause`: milliseconds of quiet before a question that
 * takes long is asked again, so that findings never wait for it.
 */
export function useAnswered<Q extends QueryName>(query: Q, ask: Ask<Q> | undefined, pause = 0): Answered<Q> {
  const [answer, setAnswer] = useState<{ readonly key: string } & Answered<Q>>();
  const asked = useRef<{ readonly key: string; again: boolean } | undefined>(undefined);
  const paused = useRef(pause);
  paused.current = pause;
  const key = ask === undefined ? '' : JSON.stringify(ask);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the question is compared by its words
  useEffect(() => {
    if (ask === undefined) {
      asked.current = undefined;
      return;
    }
    const put = (): void => {
      // One question at a time: who types faster than pages are made gets the newest page, not all of them.
      if (asked.current?.key === key) {
        asked.current.again = true;
        return;
      }
      const own = { key, again: false };
      asked.current = own;
      const over = (told: () => void): void => {
        if (asked.current !== own) return;
        asked.current = undefined;
        told();
        if (own.again) put();
      };
      void core.ask(query, ask).then(
        (value) => over(() => setAnswer({ key, answer: value, refused: undefined, known: true })),
        (error: Error) =>
          over(() => {
            say(error.message, true);
            setAnswer({ key, answer: undefined, refused: error.message, known: true });
          }),
      );
    };
    let timer: ReturnType<typeof setTimeout> | undefined;
    const soon = (): void => {
      clearTimeout(timer);
      // Nothing was read yet, or another library is: nothing to ask about, and nothing to be answered of what was asked.
      if (shown.get().revision === 0) {
        asked.current = undefined;
        return;
      }
      if (paused.current > 0) timer = setTimeout(put, paused.current);
      else put();
    };
    soon();
    const stop = shown.listen(soon, 'revision');
    return () => {
      stop();
      clearTimeout(timer);
    };
  }, [key]);
  useEffect(
    () => () => {
      asked.current = undefined;
    },
    [],
  );
  return answer?.key === key ? answer : NOT_YET;
}
