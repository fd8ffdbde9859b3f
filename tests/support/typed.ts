/** A command as typed, with what it printed and how it ended. */
import { main } from '../../cli/main.ts';

export async function typed(...words: string[]): Promise<{ readonly code: number; readonly out: string; readonly err: string }> {
  let out = '';
  let err = '';
  const code = await main(words, {
    cwd: process.cwd(),
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    colour: false,
    width: 100,
    live: false,
    now: () => 0,
  });
  return { code, out, err };
}
