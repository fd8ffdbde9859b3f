/** A random procedure in a few lines for people, so that a difference between the two checkers can be looked into. */
import type { Condition } from '../../procedures-schema/index.ts';
import type { NaiveCase } from './naive-generate.ts';
import type { NaiveAct } from './naive-procedure.ts';

export function toldCase({ procedure }: NaiveCase): string {
  const lines = [`${procedure.startsWith} to ${procedure.endsWith}`];
  for (const { title, aside, steps } of procedure.sections) {
    lines.push(`## ${title}${aside ? ' {aside}' : ''}`);
    for (const { id, line, standClear } of steps) {
      const clear = standClear ? ' (stand clear)' : '';
      if (line.kind === 'sentences') lines.push(`${id}.${clear} ${line.acts.map(act).join('. ')}`);
      else
        lines.push(
          `${id}.${clear} ${line.branches.map((one) => `[${one.uid}] - ${one.when ? words(one.when) : 'otherwise'}: ${act(one.act)}`).join('; ')}`,
        );
    }
  }
  return lines.join('\n');
}

function act({ uid, action }: NaiveAct): string {
  const { kind, things, when, target, until, role, position, stage, manner } = action;
  return [
    `[${uid}]`,
    ...when.map((one) => `if ${words(one)},`),
    ...(role === undefined ? [] : [`${role}:`]),
    kind,
    ...things.map(({ thing }) => thing.name),
    ...(target ? [JSON.stringify(Object.values(target).slice(1))] : []),
    ...(until ? [`until ${words(until)}`] : []),
    ...[position, stage, manner].filter((one) => one !== undefined),
  ].join(' ');
}

const words = (condition: Condition): string => condition.text;
