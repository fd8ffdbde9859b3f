/** Whether a sentence opens with a verb in the form of an order, as far as its first words tell. Reads no meaning. */
import { foldWords } from '../registers/index.ts';
import { english } from './lexicon/en/english.ts';
import { tablesOf } from './tables.ts';

const tables = tablesOf(english);

/** "Remove the lint" does; "The lint sticks" and "Stops are marked red" do not. */
export function opensWithOrder(text: string): boolean {
  const [first, second] = foldWords(text).map(({ word }) => word);
  const forms = tables.verbs.get(first ?? '') ?? [];
  if (!forms.some((form) => form.form === 'base')) return false;
  // A word that is also a noun orders something only before what it is done to.
  const { determiners, possessives, all } = tables.sets;
  return second !== undefined && (determiners.has(second) || possessives.has(second) || all.has(second) || /^\d/.test(second));
}
