/** Sorts the words of a command line by a command's table of options. Knows no command by name. */
import { CannotRun, type Command, type Given, type Option } from './command.ts';
import { nearest } from './nearest.ts';

export function sortArguments(command: Command, words: readonly string[]): Given {
  const operands: string[] = [];
  const values: Record<string, string> = {};
  const flags = new Set<string>();
  let onlyOperands = false;
  for (let i = 0; i < words.length; i += 1) {
    const word = words[i] ?? '';
    if (onlyOperands || !word.startsWith('-') || word === '-') {
      operands.push(word);
      continue;
    }
    if (word === '--') {
      onlyOperands = true;
      continue;
    }
    const [name = '', joined] = split(word);
    const option = command.options.find((known) => known.name === name);
    if (!option) throw new CannotRun(unknownOption(command, word));
    if (option.value === undefined) {
      if (joined !== undefined) throw new CannotRun(`--${name} takes no value.`);
      flags.add(name);
      continue;
    }
    const value = joined ?? words[i + 1];
    if (joined === undefined) i += 1;
    if (value === undefined || value === '' || (joined === undefined && value.startsWith('--')))
      throw new CannotRun(`--${name} wants a value: --${name} ${option.value}.`);
    if (name in values && !option.many) throw new CannotRun(`--${name} is given twice.`);
    const before = values[name];
    values[name] = before === undefined ? checked(option, value) : `${before}\n${checked(option, value)}`;
  }
  const most = command.operands.length;
  const least = command.operands.filter((name) => !name.startsWith('[')).length;
  if (operands.length < least) throw new CannotRun(`${command.name} wants ${command.operands[operands.length] ?? 'more'}. ${see(command)}`);
  if (operands.length > most) throw new CannotRun(tooMany(command, operands[most] ?? ''));
  return { operands, values, flags };
}

function split(word: string): readonly [string, string?] {
  const at = word.indexOf('=');
  return at === -1 ? [word.slice(2)] : [word.slice(2, at), word.slice(at + 1)];
}

/** Upper and lower case are not told apart. */
function checked(option: Option, value: string): string {
  if (!option.choices) return value;
  const chosen = option.choices.find((one) => one === value.toLowerCase());
  if (chosen !== undefined) return chosen;
  throw new CannotRun(`--${option.name} is ${option.choices.join(' or ')}, not "${value}".`);
}

function unknownOption(command: Command, word: string): string {
  const near = nearest(
    word.replace(/^-+/, '').replace(/=.*/, ''),
    command.options.map((option) => option.name),
  );
  return `${command.name} has no option ${word.replace(/=.*/, '')}.${near ? ` Did you mean --${near}?` : ''} ${see(command)}`;
}

const see = (command: Command): string => `See: handsclear ${command.name} --help`;

/** Words that a space tore apart are the usual reason. */
function tooMany(command: Command, word: string): string {
  const most = command.operands.length === 0 ? 'nothing' : command.operands.join(' ').replaceAll(/[<>[\]]/g, '');
  return `${command.name} takes ${command.operands.length < 2 ? 'one ' : ''}${most} at a time, and does not know what to do with "${word}". What has spaces in it wants quotation marks around it. ${see(command)}`;
}

export function usage(command: Command): string {
  const options = command.options.map((option) => (option.value ? `[--${option.name} ${option.value}]` : `[--${option.name}]`));
  return ['handsclear', command.name, ...command.operands, ...options].join(' ');
}
