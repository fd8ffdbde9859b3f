/** The energy on the machines of a procedure as words: of each source what cuts it off, what lets out or holds what is stored, what proves it dead. */
import type { Machine, Source } from '../../procedures-schema/index.ts';
import { machinesOf } from './edition.ts';
import type { Scope } from './scope.ts';

export interface EnergyLine {
  readonly name: string;
  readonly size: string;
  /** Which of the machines have it; empty: all. */
  readonly only: string;
  readonly cutOff: string;
  /** And how long what is stored takes to go by itself. */
  readonly stored: string;
  readonly proved: readonly string[];
}

/** By family, each source once, in register order. */
export function energyOf(scope: Scope): readonly { readonly family: string; readonly sources: readonly EnergyLine[] }[] {
  const { words } = scope;
  const machines = machinesOf(scope);
  const families = [...new Set(machines.map((machine) => machine.name))];
  return families.map((family) => {
    const own = machines.filter((machine) => machine.name === family);
    const sources = sourcesOf(own).map((source): EnergyLine => {
      const some = own.filter((machine) => machine.sources.some((one) => one.name === source.name));
      return {
        name: source.name,
        size: source.size,
        only: some.length === own.length ? '' : onlyOn(some, own, words),
        cutOff: uses(source.isolate),
        stored: stored(source, words),
        proved: [...source.tryOut, ...source.shownBy, ...source.provedWith],
      };
    });
    return { family, sources };
  });
}

/** Which of the machines: by the option that they have and the others have not, else by models where all of each are meant, else by name. */
function onlyOn(some: readonly Machine[], all: readonly Machine[], words: Scope['words']): string {
  const has = (machine: Machine): boolean => some.includes(machine);
  const option = [...new Set(some.flatMap(({ variant }) => variant.options))].find((one) =>
    all.every((machine) => machine.variant.options.includes(one) === has(machine)),
  );
  if (option !== undefined) return `${words.onlyWithOption} ${option}`;
  const models = [...new Set(some.map(({ variant }) => variant.model))];
  const whole = all.every((machine) => has(machine) || !models.includes(machine.variant.model));
  return `${words.only} ${(whole ? models : [...new Set(some.map(({ variant }) => variant.name))]).join(', ')}`;
}

const uses = (list: Source['isolate']): string => list.map(({ point, safe }) => `${point} ${safe}`).join(', ');

function stored(source: Source, words: Scope['words']): string {
  const parts = [uses([...source.relieve, ...source.restrain])];
  if (source.settles !== undefined) parts.push(words.goneAfter.replace('{time}', source.settles));
  return parts.filter((part) => part !== '').join('; ');
}

function sourcesOf(machines: readonly Machine[]): readonly Source[] {
  const out = new Map<string, Source>();
  for (const { sources } of machines) for (const source of sources) if (!out.has(source.name)) out.set(source.name, source);
  return [...out.values()];
}
