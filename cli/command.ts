/** The form of a command, and the two ways it can end besides well. Runs nothing. */
import type { Io } from './io.ts';

export interface Option {
  readonly name: string;
  /** What stands for its value in the help ("FILE"); undefined: a flag. */
  readonly value?: string;
  /** The only values allowed. */
  readonly choices?: readonly string[];
  readonly help: string;
  /** May be given several times; the values come joined by line ends. */
  readonly many?: boolean;
}

export interface Command {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** Names of what follows the command; a name in brackets may be left out. */
  readonly operands: readonly string[];
  readonly options: readonly Option[];
  /** What it does in full, and what its exit codes mean. */
  readonly about: string;
  readonly examples: readonly { readonly line: string; readonly does: string }[];
  readonly run: (given: Given, io: Io) => Promise<ExitCode>;
}

/** The command line as typed, sorted by the command's own table. */
export interface Given {
  readonly operands: readonly string[];
  readonly values: Readonly<Record<string, string>>;
  readonly flags: ReadonlySet<string>;
}

/** 0: nothing blocks. 1: errors block. 2: could not run. */
export type ExitCode = 0 | 1 | 2;

/** The command cannot run as asked: a sentence for the user, and exit 2. Never for our own bugs. */
export class CannotRun extends Error {
  override name = 'CannotRun';
}
