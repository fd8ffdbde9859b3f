/** The code words of a JPEG (ITU-T T.81, annex C): a table of them as a file gives it, made ready to be looked up. Reads no bits. */

export interface CodeTable {
  /** By the next eight bits: length of the word times 256 and what it stands for; 0: the word is longer. */
  readonly short: Uint16Array;
  /** By the length of a word: the last one of it, -1 where there is none. */
  readonly last: Int32Array;
  /** By the length of a word: what is added to it to find its value. */
  readonly shift: Int32Array;
  readonly values: Uint8Array;
}

/** `counts`: how many words there are of 1 to 16 bits; `values`: what they stand for, in order. undefined: no such words exist. */
export function codeTable(counts: Uint8Array, values: Uint8Array): CodeTable | undefined {
  const short = new Uint16Array(256);
  const last = new Int32Array(17).fill(-1);
  const shift = new Int32Array(17);
  let [code, at] = [0, 0];
  for (let length = 1; length <= 16; length += 1) {
    const count = counts[length - 1] as number;
    shift[length] = at - code;
    for (let k = 0; k < count; k += 1, at += 1, code += 1) {
      if (length > 8) continue;
      const from = code << (8 - length);
      for (let tail = 0; tail < 1 << (8 - length); tail += 1) short[from + tail] = (length << 8) | (values[at] as number);
    }
    if (code > 1 << length) return undefined;
    if (count > 0) last[length] = code - 1;
    code <<= 1;
  }
  return { short, last, shift, values };
}
