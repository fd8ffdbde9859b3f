/** Finds a registered name by another spelling of it: case, spaces and aliases do not matter. Nearness never counts here. */
import { foldText } from '../format/index.ts';

interface Spelled {
  readonly name: string;
  readonly aliases?: readonly string[];
}

/** From every folded spelling to the registered name; the first thing of a spelling wins. */
export function spellingsOf(things: readonly Spelled[]): ReadonlyMap<string, string> {
  const known = MADE.get(things);
  if (known) return known;
  const out = new Map<string, string>();
  for (const { name } of things) if (!out.has(foldText(name))) out.set(foldText(name), name);
  for (const { name, aliases } of things) for (const alias of aliases ?? []) if (!out.has(foldText(alias))) out.set(foldText(alias), name);
  MADE.set(things, out);
  return out;
}

/** Every procedure asks for the models of the one library. */
const MADE = new WeakMap<readonly Spelled[], ReadonlyMap<string, string>>();

/** The registered name, or the text as typed where there is none. */
export function settled(spellings: ReadonlyMap<string, string>, typed: string): string {
  return spellings.get(foldText(typed)) ?? typed;
}
