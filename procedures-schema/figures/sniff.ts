/** What bytes hold by how they begin, so that a picture under a wrong name is told as that, and not as a damaged one. */
import type { Fault, FigureKind } from './model.ts';

interface Beginning {
  readonly name: string;
  /** Bytes as letters of one byte each, and where they stand. */
  readonly letters: string;
  readonly at?: number;
  /** Kinds that a page shows, with the ending that they go by. */
  readonly kind?: FigureKind;
  readonly ending?: string;
}

const BEGINNINGS: readonly Beginning[] = [
  { name: 'a PNG picture', letters: '\x89PNG\r\n\x1a\n', kind: 'png', ending: '.png' },
  { name: 'a JPEG picture', letters: '\xff\xd8\xff', kind: 'jpeg', ending: '.jpg' },
  { name: 'a GIF picture', letters: 'GIF8' },
  { name: 'a WebP picture', letters: 'WEBP', at: 8 },
  { name: 'a TIFF picture', letters: 'II*\0' },
  { name: 'a TIFF picture', letters: 'MM\0*' },
  { name: 'a HEIF or AVIF picture', letters: 'ftyp', at: 4 },
  { name: 'a PDF page', letters: '%PDF-' },
  { name: 'something packed with gzip', letters: '\x1f\x8b' },
  { name: 'a pointer to a file that is kept elsewhere', letters: 'version https://git-lfs' },
  { name: 'an SVG drawing', letters: '<svg', kind: 'svg', ending: '.svg' },
  { name: 'a drawing or another text in XML', letters: '<?xml' },
];

/** What is wrong when the bytes do not begin as their kind does; undefined: they do. */
export function heldBy(kind: 'png' | 'jpeg', bytes: Uint8Array): { readonly fault: Fault } | undefined {
  const named = kind === 'png' ? 'PNG' : 'JPEG';
  if (bytes.length === 0)
    return { fault: { says: 'The file is empty.', right: `The picture copied here again, or saved anew as ${named}.` } };
  const found = BEGINNINGS.find(({ letters, at = 0 }) => [...letters].every((letter, index) => bytes[at + index] === letter.charCodeAt(0)));
  if (found?.kind === kind) return undefined;
  const says = found === undefined ? `It is named ${named} and does not begin as one.` : `It is named ${named} and holds ${found.name}.`;
  return { fault: { says, right: found?.ending ? `A name that ends in ${found.ending}.` : `The picture saved as ${named}.` } };
}

/** Of a file that was read as UTF-8: a byte that is none stands there as U+FFFD. */
export function heldAsDrawing(source: string): { readonly fault: Fault } | undefined {
  const right = 'The drawing saved anew as plain SVG in UTF-8.';
  if (source.trim() === '') return { fault: { says: 'The file is empty.', right } };
  if (source.includes('\0') && /svg|xml/.test(source.replaceAll('\0', '')))
    return { fault: { says: 'It is text in UTF-16, and is read as UTF-8.', right } };
  if (/^\uFEFF?\s*</.test(source)) return undefined;
  const found = BEGINNINGS.find(({ letters, at = 0 }) => source.startsWith(letters.replace(/[\x80-\xff]/g, '\uFFFD'), at));
  if (found === undefined) return { fault: { says: 'It is named SVG and does not begin as a drawing.', right } };
  return {
    fault: { says: `It is named SVG and holds ${found.name}.`, right: found.ending ? `A name that ends in ${found.ending}.` : right },
  };
}
