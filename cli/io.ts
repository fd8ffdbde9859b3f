/** What a command talks through: two streams, a folder to start from, a clock for progress. Tests give their own. */

export interface Io {
  readonly cwd: string;
  readonly out: (text: string) => void;
  /** Progress and complaints; never part of the result. */
  readonly err: (text: string) => void;
  readonly colour: boolean;
  /** Columns to wrap at. */
  readonly width: number;
  /** Standard error is watched by a person, so a line may be rewritten. */
  readonly live: boolean;
  /** Milliseconds, for deciding when work has become long. */
  readonly now: () => number;
}

const NARROWEST = 60;
const WIDEST = 110;

export function terminal(): Io {
  const { stdout, stderr, env } = process;
  const columns = stdout.isTTY ? stdout.columns : 100;
  for (const stream of [stdout, stderr]) stream.on('error', (error: NodeJS.ErrnoException) => cutShort(error, stream === stdout));
  return {
    cwd: process.cwd(),
    out: (text) => stdout.write(text),
    err: (text) => stderr.write(text),
    colour: stdout.isTTY === true && !env.NO_COLOR,
    width: Math.min(WIDEST, Math.max(NARROWEST, columns)),
    live: stderr.isTTY === true,
    now: () => performance.now(),
  };
}

/**
 * A reader that went away ("| head") is no fault of ours or of the text: the command goes on without it, so that the exit code still says what was
 * found. Anything else took words away that somebody waits for.
 */
function cutShort(error: NodeJS.ErrnoException, result: boolean): void {
  if (error.code === 'EPIPE' || !result) return;
  process.stderr.write(`What was found could not all be written out: ${error.code === 'ENOSPC' ? 'the disk is full' : error.message}.\n`);
  process.exit(2);
}
