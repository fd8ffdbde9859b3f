/** Bytes to text. Says where the first byte stands that is not UTF-8; whether that blocks is for the caller. The byte-order mark is kept. */

export type Decoded =
  | { readonly kind: 'text'; readonly text: string }
  /** Text with bytes of another encoding in it: `text` has replacement characters in their place. */
  | { readonly kind: 'damaged'; readonly text: string; readonly line: number; readonly column: number; readonly byte: number }
  | { readonly kind: 'utf-16' }
  | { readonly kind: 'binary' };

const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
const lenient = new TextDecoder('utf-8', { fatal: false, ignoreBOM: true });

/** As far as a file that is no text shows it. */
const LOOK = 8192;

export function decode(bytes: Uint8Array): Decoded {
  if (startsWith(bytes, 0xff, 0xfe) || startsWith(bytes, 0xfe, 0xff)) return { kind: 'utf-16' };
  try {
    return { kind: 'text', text: strict.decode(bytes) };
  } catch {
    if (bytes.subarray(0, LOOK).includes(0)) return { kind: 'binary' };
    const text = lenient.decode(bytes);
    return { kind: 'damaged', text, ...firstDamage(text, bytes) };
  }
}

const startsWith = (bytes: Uint8Array, a: number, b: number): boolean => bytes[0] === a && bytes[1] === b;

/** The first replacement character that was not itself in the file, as EF BF BD. */
function firstDamage(text: string, bytes: Uint8Array): { line: number; column: number; byte: number } {
  for (let at = text.indexOf('\uFFFD'); at !== -1; at = text.indexOf('\uFFFD', at + 1)) {
    const before = text.slice(0, at);
    const offset = new TextEncoder().encode(before).length;
    if (bytes[offset] === 0xef && bytes[offset + 1] === 0xbf && bytes[offset + 2] === 0xbd) continue;
    const lines = before.split('\n');
    return { line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1, byte: bytes[offset] ?? 0 };
  }
  return { line: 1, column: 1, byte: 0 };
}
