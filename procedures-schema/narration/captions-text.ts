/** Bytes of a caption file to text, by the byte-order mark that many caption editors save. What the text says is for its reader. */

/** By the first bytes (the Unicode Standard, section 23.8). No mark: UTF-8, as WebVTT asks. */
const MARKS = [
  { bytes: [0xff, 0xfe], encoding: 'utf-16le' },
  { bytes: [0xfe, 0xff], encoding: 'utf-16be' },
] as const;

export function captionsText(bytes: Uint8Array): string {
  const marked = MARKS.find((one) => one.bytes.every((byte, at) => bytes[at] === byte));
  return new TextDecoder(marked?.encoding ?? 'utf-8').decode(bytes);
}
