/** Whether a check takes so long that somebody waits for it: said at every key, it would come and go faster than it is read. */
import { useEffect, useState } from 'react';
import { shown } from '../state/shown.ts';

/** Milliseconds. */
const LONG = 400;

export function useLongChecking(): boolean {
  const [long, setLong] = useState(false);
  useEffect(() => {
    let since = shown.get().checking ? performance.now() : 0;
    let timer: ReturnType<typeof setTimeout> | undefined;
    // One that waits already looks again when its time has come, so that a key costs no timer of its own.
    const look = (): void => {
      timer = undefined;
      if (!shown.get().checking) return;
      const left = since + LONG - performance.now();
      if (left <= 0) setLong(true);
      else timer = setTimeout(look, left);
    };
    const hear = (): void => {
      if (!shown.get().checking) return setLong(false);
      since = performance.now();
      timer ??= setTimeout(look, LONG);
    };
    hear();
    const stop = shown.listen(hear, 'checking');
    return () => {
      stop();
      clearTimeout(timer);
    };
  }, []);
  return long;
}
