/**
 * What a signature is given for: the text, and all that its proof reads from elsewhere, as plain data. Of the registers these are the machines, and
 * the tools and materials that the text names; of other procedures those that the reader is sent through. Makes no hash and knows no signer.
 */
import { eachAction, eachSentence, type LibraryFacts, type ProcedureFacts } from '../checks/index.ts';
import type { Verdict } from '../flow/index.ts';
import type { Machine, Registers, Thing } from '../registers/index.ts';
import type { Signature } from './record.ts';

export type GuideFacts = LibraryFacts['guides'][number];

/** Raw: what the registers say, not what one version of this program makes of it, so that a newer program leaves a signature as it is. */
export function signedOf(facts: ProcedureFacts, library: LibraryFacts): unknown {
  const walked = walkedFrom(facts, library);
  const named = namedIn(walked);
  const { registers } = library;
  const { house } = registers;
  const listed = <T extends { readonly name: string }>(kind: Thing['kind'], all: readonly T[]): readonly T[] =>
    all.filter(({ name }) => named.has(`${kind} ${name}`));
  const models = new Set(facts.machines.map(({ variant }) => variant.model));
  return bare({
    text: facts.source.text,
    house: { lockoutProfile: house.lockoutProfile, language: house.language, numbering: house.numbering, units: house.units },
    machines: facts.machines.map((machine) => concerned(machine, named, registers)),
    models: registers.models.filter(({ name }) => models.has(name)),
    tools: listed('tool', registers.tools),
    consumables: listed('consumable', registers.consumables),
    replacements: listed('replacement', registers.replacements),
    walked: walked.slice(1).map(({ head, source }) => ({ number: head.id, text: source.text })),
    // A proof that ends otherwise is of something else, whatever it was that told the two apart.
    verdicts: facts.flow.verdicts.map(({ variant, verdict }) => ({ variant, verdict })),
  });
}

/** Worst first; a text that holds for one machine and not for another does not hold. */
export function verdictOf(all: readonly ProcedureFacts[]): Verdict | undefined {
  const verdicts = all.flatMap(({ flow }) => flow.verdicts.map(({ verdict }) => verdict));
  if (verdicts.length === 0) return undefined;
  return (['refuted', 'not proved'] as const).find((one) => verdicts.includes(one)) ?? 'proved';
}

/**
 * Whether a signature is one for what would be signed now: `hash` and `verdict` are of now. The right hash alone is not enough, because the file
 * may be edited by hand, and without the verdict nobody can say what the signer was shown.
 */
export function signatureHolds(signature: Signature, hash: string, verdict: Verdict | undefined): boolean {
  return hash !== '' && signature.hash === hash && verdict !== undefined && signature.verdict === verdict;
}

/** The procedures that a guide binds in, in its order, each once. */
export function boundIn(guide: GuideFacts, library: LibraryFacts): readonly ProcedureFacts[] {
  const numbers = new Set(guide.tree.parts.flatMap(({ entries }) => entries.map(({ document }) => document)));
  return [...numbers].flatMap((number) => library.procedures.find(({ head }) => head.id === number) ?? []);
}

/** It, and every procedure that it sends its reader through or asks for first, and those again. */
export function walkedFrom(facts: ProcedureFacts, library: LibraryFacts): readonly ProcedureFacts[] {
  const walked = [facts];
  for (const own of walked)
    for (const number of sentTo(own)) {
      const other = library.procedures.find(({ head }) => head.id === number);
      if (other && !walked.includes(other)) walked.push(other);
    }
  return walked;
}

function sentTo({ read, head }: ProcedureFacts): readonly string[] {
  const said = eachAction(read).flatMap(({ action: { target } }) =>
    target?.kind === 'document' ? [target.number] : target?.kind === 'section' && target.document !== undefined ? [target.document] : [],
  );
  return [...said, ...head.requires.map(({ name }) => name)];
}

/** "kind name" of all that is named in their steps or listed at their heads. */
export function namedIn(procedures: readonly ProcedureFacts[]): ReadonlySet<string> {
  const named = new Set<string>();
  const add = (things: readonly Thing[]): void => {
    for (const { kind, name } of things) named.add(`${kind} ${name}`);
  };
  for (const { read, names, head } of procedures) {
    for (const { sentence } of eachSentence(read)) {
      for (const { things, with: using } of sentence.actions) add([...things, ...using].map(({ thing }) => thing));
      add(sentence.mentions.map(({ thing }) => thing));
      for (const { things } of sentence.ambiguous) add(things);
    }
    for (const { name } of [...head.tools, ...head.consumables, ...head.parts, ...head.protection]) add(names.lookup(name));
    for (const one of head.measurements) if (one.with !== undefined) add(names.lookup(one.with));
  }
  return named;
}

/**
 * A machine as a text has to do with it: all that endangers, guards and cuts off, and of its parts and fasteners those that are named, renewed, or
 * travel with something. Another bolt of the same machine is no reason to sign again.
 */
export function concerned(machine: Machine, named: ReadonlySet<string>, registers: Registers): Machine {
  const renewed = new Set(registers.replacements.flatMap(({ name, renews }) => (named.has(`replacement ${name}`) ? [renews] : [])));
  const parts = machine.parts.filter(({ name }) => named.has(`part ${name}`) || renewed.has(name));
  const carried = new Set(machine.covers.flatMap(({ fasteners }) => fasteners));
  const carriers = new Set([...parts, ...machine.covers].map(({ name }) => name));
  const fasteners = machine.fasteners.filter(
    ({ name, of }) => named.has(`fastener ${name}`) || carried.has(name) || (of !== undefined && carriers.has(of)),
  );
  return { ...machine, parts, fasteners };
}

/** Without the places where it is written: a register with a line more above says the same. */
function bare(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(bare);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).flatMap(([key, own]) => (key === 'origin' ? [] : [[key, bare(own)]])));
}
