/** The help texts, from the commands' own tables. */
import { usage } from './arguments.ts';
import type { Command } from './command.ts';
import { wrap } from './report/wrap.ts';

export function overview(commands: readonly Command[], version: string): string {
  const widest = Math.max(...commands.map((command) => command.name.length));
  const list = commands.map((command) => `  ${command.name.padEnd(widest)}  ${command.summary}`);
  const examples = commands.flatMap((command) => command.examples.slice(0, 1));
  return [
    `handsclear ${version}: checks, prints and hands out service procedures, and proves where hands are while energy is live.`,
    '',
    'Commands',
    ...list,
    '',
    'Examples',
    ...examples.map(({ line, does }) => `  ${line}\n      ${does}`),
    '',
    'Exit codes: 0 nothing blocks, 1 errors block publishing, 2 could not run.',
    'More on a command: handsclear COMMAND --help',
    '',
    CAUTION,
    '',
  ].join('\n');
}

export function helpOf(command: Command, width: number): string {
  const widest = Math.max(0, ...command.options.map((option) => label(option).length));
  return [
    usage(command),
    '',
    ...wrap(command.about, width),
    ...(command.options.length > 0
      ? ['', 'Options', ...command.options.map((option) => `  ${label(option).padEnd(widest)}  ${option.help}`)]
      : []),
    '',
    'Examples',
    ...command.examples.map(({ line, does }) => `  ${line}\n      ${does}`),
    '',
  ].join('\n');
}

function label(option: Command['options'][number]): string {
  return option.value ? `--${option.name} ${option.choices ? option.choices.join('|') : option.value}` : `--${option.name}`;
}

/** Said wherever a check ends well: what it is not. */
export const CAUTION =
  'A clean check does not make a machine safe. Site lockout rules, local codes and licensed practice come first; a qualified person reviews.';
