/**
 * The blanks of a first machine: every kind of energy that must be answered, with what is to be said of it. Everything in it is left out, so that each
 * blank is told as an error until somebody who knows the machine has filled it in; no name of a point is guessed.
 */
import { words } from '../words/words.ts';

/** An equipment register with nothing in it but remarks. */
const EMPTY = /^((?:[ \t]*(?:#.*)?\r?\n)*)families:[ \t]*\{\}[ \t]*\r?\nmodels:[ \t]*\{\}\s*$/;

/** The register with the blanks in it; undefined where it says something already. */
export function withMachineStart(text: string): string | undefined {
  const before = EMPTY.exec(text)?.[1];
  return before === undefined ? undefined : `${before}${machineStart()}`;
}

function machineStart(): string {
  const said = words.machineStart;
  const source = (name: string, kind: string, ...points: readonly string[]): string =>
    [`      ${name}:`, `        kind: ${kind}`, '        size:', ...points.map((one) => `        ${one}: {}`)].join('\n');
  return [
    'families:',
    `  # ${said.family}`,
    `  ${said.name}:`,
    '    energy:',
    ...said.energy.map((line) => `      # ${line}`),
    source('supply', 'electrical', 'isolate'),
    source('air', 'pneumatic', 'isolate', 'relieve'),
    source('oil', 'hydraulic', 'isolate', 'relieve'),
    source('weight', 'gravity', 'restrain'),
    source('tension', 'spring', 'restrain'),
    source('heat', 'thermal', 'isolate'),
    ...said.rest.map((line) => `    # ${line}`),
    `# ${said.models}`,
    'models: {}',
    '',
  ].join('\n');
}
