/** The command line: picks the command, hands it the words, turns its end into an exit code. Knows nothing of procedures. */

import manifest from '../package.json' with { type: 'json' };
import { sortArguments } from './arguments.ts';
import { CannotRun, type Command, type ExitCode } from './command.ts';
import * as all from './commands/index.ts';
import { helpOf, overview } from './help.ts';
import { type Io, terminal } from './io.ts';
import { nearest } from './nearest.ts';

const commands: readonly Command[] = Object.values(all);

export async function main(words: readonly string[], io: Io = terminal()): Promise<ExitCode> {
  try {
    return await run(words, io);
  } catch (error) {
    if (error instanceof CannotRun) {
      io.err(`${error.message}\n`);
      return 2;
    }
    const { message, stack } = error as Error;
    io.err(`Handsclear itself failed: ${message}\nThis is a fault of the program, not of your text. What it was doing:\n${stack ?? ''}\n`);
    return 2;
  }
}

async function run(words: readonly string[], io: Io): Promise<ExitCode> {
  const [name, ...rest] = words[0] === 'help' && words[1] !== undefined ? [words[1], '--help'] : words;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    io.out(overview(commands, manifest.version));
    return name === undefined ? 2 : 0;
  }
  if (name === '--version' || name === '-v' || name === 'version') {
    io.out(`handsclear ${manifest.version}\n`);
    return 0;
  }
  const command = commands.find((known) => known.name === name);
  if (!command) {
    const near = nearest(
      name,
      commands.map((known) => known.name),
    );
    throw new CannotRun(`There is no command "${name}".${near ? ` Did you mean ${near}?` : ''} See: handsclear --help`);
  }
  if (rest.includes('--help') || rest.includes('-h')) {
    io.out(helpOf(command, io.width));
    return 0;
  }
  return await command.run(sortArguments(command, rest), io);
}
