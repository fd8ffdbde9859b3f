/** Words of a procedure that a dictionary may judge, and the words that the library itself makes right. */
import { type SpellableWord, spellable, spellingWords } from '../../../procedures-schema/assist/index.ts';
import type { Registers } from '../../../procedures-schema/index.ts';
import type { LibraryModel } from '../library-model.ts';

export interface Spelling {
  readonly words: readonly SpellableWord[];
  readonly version: string;
  /** Of the library: "en", "en-GB". */
  readonly language: string;
  /** Absent: those told under `version` still hold. */
  readonly known?: readonly string[];
}

let count = 0;
const versions = new WeakMap<Registers, string>();

/** `told`: the version whose words the asker has. Undefined: no procedure, or no dictionary for the library's language. */
export function spelling(model: LibraryModel, ask: { readonly file: string; readonly told: string }): Spelling | undefined {
  const facts = model.procedure(ask.file);
  const { registers } = model.facts;
  if (!facts || !registers.house.language.startsWith('en')) return undefined;
  let version = versions.get(registers);
  if (version === undefined) {
    count += 1;
    version = String(count);
    versions.set(registers, version);
  }
  const words = spellable(facts);
  const { language } = registers.house;
  return { words, version, language, ...(version === ask.told ? {} : { known: spellingWords(model.facts) }) };
}
