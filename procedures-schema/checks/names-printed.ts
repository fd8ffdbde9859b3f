/** Characters of registers and guides that no font of the printed page has. */
import type { LibraryCheck } from './check.ts';
import { codeOf, unprintableIn } from './printable.ts';

export const namesPrinted: LibraryCheck = {
  id: 'names-printed',
  scope: 'library',
  severity: 'error',
  question: 'Has every character of registers and guides a shape in the fonts of the printed page?',
  why: 'A name with an empty box in it is printed wherever the thing is named, and matches no label on the machine.',
  source: 'PDF/UA-1 (ISO 14289-1), 7.21.8: no character without a glyph',
  cases: [
    {
      name: 'in a tool',
      finds: 1,
      files: { 'registers/tools.yaml': 'tools:\n  key set 清: {kind: wrench}\n' },
    },
    { name: 'common signs', finds: 0, files: { 'registers/tools.yaml': 'tools:\n  ½ in key set – long: {kind: wrench}\n' } },
  ],
  *run({ registerFiles, guides }) {
    const sources = [...registerFiles.map(({ file }) => file.source), ...guides.map(({ tree }) => tree.source)];
    for (const { path, text } of sources)
      for (const { letter, at } of unprintableIn(text)) {
        yield {
          file: path,
          span: { start: at, end: at + letter.length },
          message: `No font of the printed page has this character (${codeOf(letter)}).`,
          actual: `${letter} (${codeOf(letter)})`,
          expected: 'a character of the Latin, Greek or Cyrillic script, a common sign, or the word for it',
        };
        break;
      }
  },
};
