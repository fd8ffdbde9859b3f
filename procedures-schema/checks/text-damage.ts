/** Damaged characters: NUL, halves of characters, files that are no text. */
import { formCheck } from './form.ts';

export const textDamage = formCheck(
  {
    id: 'text-damage',
    severity: 'error',
    question: 'Is the file whole, readable text?',
    why: 'A damaged character can swallow a digit or a minus sign, and nobody sees it on the page.',
    source: 'format rule F1',
    cases: [
      { name: 'a NUL in a sentence', finds: 1, work: '#. Clean the [scraper] with\u0000 a brush.' },
      { name: 'accents and symbols are text', finds: 0, work: '#. Read the name plate: “Ø 25 µm ± 2 °C”.' },
    ],
  },
  ['text-damage'],
);
