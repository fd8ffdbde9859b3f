/** A guide in another language than the house prints all its pages in that one: its words, its decimal mark, its hyphens. */
import type { ComposeInput } from './scope.ts';

export function inLanguage(input: ComposeInput, language: string | undefined): ComposeInput {
  const { library } = input;
  const { house } = library.registers;
  if (language === undefined || language === house.language) return input;
  return { ...input, library: { ...library, registers: { ...library.registers, house: { ...house, language } } } };
}
