/** Characters of a procedure that no font of the printed page has. */
import type { ProcedureCheck } from './check.ts';
import { codeOf, unprintableIn } from './printable.ts';

export const lettersPrinted: ProcedureCheck = {
  id: 'letters-printed',
  scope: 'procedure',
  severity: 'error',
  question: 'Has every character of the procedure a shape in the fonts of the printed page?',
  why: 'Where no font has it, an empty box is printed: a sign, a unit or a word is missing in the hand of whoever reads it.',
  source: 'PDF/UA-1 (ISO 14289-1), 7.21.8: no character without a glyph',
  cases: [
    { name: 'a character for private use', finds: 1, work: '#. Clean the [scraper] \ue123.\n                       ^^^' },
    { name: 'writing the fonts do not have', finds: 1, work: '#. Clean the [scraper] 清.' },
    { name: 'twice the same is told once', finds: 1, work: '#. Clean the [scraper] 清.\n#. Clean the [scraper] 清 again.' },
    { name: 'units, fractions, arrows, accents', finds: 0, work: '#. Clean the [scraper] at 20 °C ± 2 °C → µm Ω ½ é.' },
    { name: 'what steers a break prints nothing', finds: 0, work: '#. Clean the [scraper] with\u00a0care\u00ad.' },
  ],
  *run({ file, tree }) {
    const { text } = tree.source;
    const told = new Set<string>();
    for (const { letter, at } of unprintableIn(text)) {
      if (told.has(letter)) continue;
      told.add(letter);
      yield {
        file,
        span: { start: at, end: at + letter.length },
        message: `No font of the printed page has this character (${codeOf(letter)}).`,
        actual: `${letter} (${codeOf(letter)})`,
        expected: 'a character of the Latin, Greek or Cyrillic script, a common sign, or the word for it',
      };
    }
  },
};
