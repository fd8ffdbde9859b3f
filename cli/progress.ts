/** Tells that long work goes on: nothing for the first second, then one line that is rewritten, or a new line now and then in a log. */
import type { Io } from './io.ts';

const QUIET = 1000;
const LIVE_EVERY = 100;
const LOG_EVERY = 5000;

export interface Progress {
  readonly tell: (done: number, total: number) => void;
  readonly end: () => void;
}

export function progress(io: Io, what: string): Progress {
  const start = io.now();
  let last = start;
  let shown = false;
  return {
    tell(done, total) {
      const now = io.now();
      if (now - start < QUIET || now - last < (io.live ? LIVE_EVERY : LOG_EVERY)) return;
      last = now;
      shown = true;
      io.err(io.live ? `\r${what} ${done} of ${total} ` : `${what} ${done} of ${total}\n`);
    },
    end() {
      if (shown && io.live) io.err('\r\u001b[K');
    },
  };
}
