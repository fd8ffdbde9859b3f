/**
 * A guide in another language than the house prints what stands around the text in that one; the text keeps its own quotation marks and hyphens
 * (spoken.ts says which words are whose). Numbers stay as the writer wrote them, and are read so: with the other decimal mark "0.050 mm" is nought, and a page with both marks is misread.
 */
import { type DecimalMark, decimalMarkOf } from '../../procedures-schema/index.ts';
import type { ComposeInput } from './scope.ts';

export function inLanguage(input: ComposeInput, language: string | undefined): ComposeInput {
  const { library } = input;
  const { house } = library.registers;
  if (language === undefined || language === house.language) return input;
  const written = input.written ?? house.language;
  return { ...input, written, library: { ...library, registers: { ...library.registers, house: { ...house, language } } } };
}

/** Of the numbers in the text, and of all that are printed beside it. */
export const decimalIn = ({ written, library }: Pick<ComposeInput, 'written' | 'library'>): DecimalMark =>
  decimalMarkOf(written ?? library.registers.house.language);
