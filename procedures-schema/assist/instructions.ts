/** What a step may begin with: instructions made from the register, then verbs of the reader's lexicon with room for an object. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import { english } from '../reading/index.ts';
import type { Family } from '../registers/index.ts';
import { familiesHere } from './names-here.ts';
import {
  controlPhrases,
  coverPhrases,
  fastenerPhrases,
  gaugePhrases,
  machinePhrases,
  measurementPhrases,
  type Phrase,
  partPhrases,
  pointPhrases,
} from './phrases.ts';

export interface Instruction extends Phrase {
  /** Where the caret goes in the text: into empty brackets. */
  readonly caret?: number;
}

export function instructionsFor(library: LibraryFacts, facts: ProcedureFacts | undefined): readonly Instruction[] {
  return [
    ...(facts?.head.measurements.flatMap(measurementPhrases) ?? []),
    ...(facts?.head.protection.map(({ name }) => ({ text: `Put on the [${name}]`, detail: 'protective equipment' })) ?? []),
    ...familiesHere(library, facts).flatMap(familyInstructions),
    ...VERBS,
  ];
}

const FAMILY = new WeakMap<Family, readonly Instruction[]>();

function familyInstructions(family: Family): readonly Instruction[] {
  const known = FAMILY.get(family);
  if (known) return known;
  const made = [
    ...family.points.flatMap((point) => pointPhrases(point, family)),
    ...machinePhrases(family),
    ...family.controls.flatMap(controlPhrases),
    ...family.gauges.flatMap(gaugePhrases),
    ...family.covers.flatMap(coverPhrases),
    ...family.fasteners.flatMap(fastenerPhrases),
    ...family.parts.flatMap(partPhrases),
  ];
  FAMILY.set(family, made);
  return made;
}

/** The detail of an instruction that is no more than a verb. */
export const VERB = 'verb';

/** Verbs that ask for something other than a named thing, with how they go on. */
const OTHERWISE: Readonly<Record<string, string>> = {
  wait: 'Wait ',
  tell: 'Tell the people at ',
  send: 'Send everyone clear of ',
  write: 'Write down the ',
  go: 'Go to [section ]',
  repeat: 'Repeat from [step #] until ',
  continue: 'Continue with []',
  stop: 'Stop the ',
  stand: 'Stand clear of ',
  call: 'Call ',
};

const VERBS: readonly Instruction[] = Object.entries(english.verbs).flatMap(([base, verb]): Instruction[] => {
  const other = OTHERWISE[base];
  if (other !== undefined) return [{ text: other, detail: VERB, ...inBrackets(other) }];
  return Object.keys(verb.senses).map((particle) => {
    const text = `${base.charAt(0).toUpperCase()}${base.slice(1)}${particle === '' ? '' : ` ${particle}`} the []`;
    return { text, detail: VERB, ...inBrackets(text) };
  });
});

function inBrackets(text: string): { readonly caret?: number } {
  const close = text.indexOf(']');
  return close === -1 ? {} : { caret: close };
}
