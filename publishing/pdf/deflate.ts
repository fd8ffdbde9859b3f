/**
 * Bytes packed as a zlib stream (RFC 1950, RFC 1951), in plain script so that every machine gives the same bytes. Made for many streams of some
 * thousand bytes, as a PDF file has: tables are kept from one to the next and nothing is cleared between them. Repeats are found by the four bytes
 * they begin with, the nearest few looked at, the first good one taken.
 */
import { codeLengths, codesOf } from './huffman.ts';

const windowSize = 1 << 15;
const hashBits = 15;
/** How many earlier places with the same beginning are looked at, and a repeat so long is taken at once. */
const mostTries = 6;
const goodLength = 48;
/** Inside a longer repeat only so many places are remembered. */
const mostInserted = 24;
const leastRepeat = 4;
const mostRepeat = 258;
/** Symbols of one block: then codes are made anew. */
const mostTokens = 1 << 15;

/** Latest place of each beginning, and the one before it; places count on from stream to stream, so what is older than a stream is never its own. */
const heads = new Int32Array(1 << hashBits);
const before = new Int32Array(windowSize);
let base = windowSize;

/** A literal, or the length of a repeat in the upper half of the numbers, with how far back. */
const tokens = new Uint16Array(mostTokens);
const distances = new Uint16Array(mostTokens);
const repeat = 0x8000;

/** Of each length and distance: its symbol; of each symbol: its first value and how many bits tell the rest. */
const lengthSymbol = new Uint8Array(mostRepeat + 1);
const lengthFirst = new Uint16Array(29);
const lengthBits = new Uint8Array(29);
const distanceFirst = new Uint16Array(30);
const distanceBits = new Uint8Array(30);
for (let symbol = 0, first = 3; symbol < 28; symbol += 1) {
  const bits = symbol < 8 ? 0 : (symbol >> 2) - 1;
  lengthFirst[symbol] = first;
  lengthBits[symbol] = bits;
  for (let k = 0; k < 1 << bits && first + k <= mostRepeat; k += 1) lengthSymbol[first + k] = symbol;
  first += 1 << bits;
}
lengthFirst[28] = mostRepeat;
lengthSymbol[mostRepeat] = 28;
for (let symbol = 0, first = 1; symbol < 30; symbol += 1) {
  const bits = symbol < 4 ? 0 : (symbol >> 1) - 1;
  distanceFirst[symbol] = first;
  distanceBits[symbol] = bits;
  first += 1 << bits;
}
/** Two symbols to each power of two. */
function distanceSymbol(distance: number): number {
  if (distance < 5) return distance - 1;
  const top = 31 - Math.clz32(distance - 1);
  return 2 * top + (((distance - 1) >> (top - 1)) & 1);
}

const endOfBlock = 256;
const literalCounts = new Uint32Array(286);
const distanceCounts = new Uint32Array(30);
const literalLengths = new Uint8Array(286);
const distanceLengths = new Uint8Array(30);
const literalCodes = new Uint16Array(286);
const distanceCodes = new Uint16Array(30);
/** Lengths of lengths go in this order (RFC 1951, 3.2.7). */
const lengthOrder = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15] as const;

class BitWriter {
  bytes: Uint8Array;
  length = 0;
  private held = 0;
  private count = 0;

  constructor(capacity: number) {
    this.bytes = new Uint8Array(capacity);
  }

  /** Room for so many bytes more. */
  room(bytes: number): void {
    if (this.length + bytes + 8 <= this.bytes.length) return;
    const grown = new Uint8Array(2 * this.bytes.length + bytes + 8);
    grown.set(this.bytes);
    this.bytes = grown;
  }

  /** At most 16 bits, the lowest first. */
  put(value: number, bits: number): void {
    this.held |= value << this.count;
    this.count += bits;
    if (this.count >= 16) {
      this.bytes[this.length] = this.held & 255;
      this.bytes[this.length + 1] = (this.held >>> 8) & 255;
      this.length += 2;
      this.held >>>= 16;
      this.count -= 16;
    }
  }

  /** To the next whole byte. */
  align(): void {
    for (; this.count > 0; this.count -= 8) {
      this.bytes[this.length] = this.held & 255;
      this.length += 1;
      this.held >>>= 8;
    }
    this.held = 0;
    this.count = 0;
  }
}

const out = new BitWriter(1 << 16);

export function deflated(data: Uint8Array): Uint8Array {
  out.length = 0;
  out.room(16);
  // Window of 32 kB, fastest method, no dictionary; the two bytes are a multiple of 31.
  out.put(0x0178, 16);
  if (data.length === 0) {
    // One block of the codes everybody knows, with nothing in it.
    out.put(3, 10);
  } else if (base > 0x7fff_ffff - data.length - 2 * windowSize) {
    heads.fill(0);
    base = windowSize;
  }
  let from = 0;
  while (from < data.length) from = block(data, from);
  base += data.length + windowSize;
  out.align();
  const sum = adler(data);
  out.room(4);
  for (let shift = 24; shift >= 0; shift -= 8) {
    out.bytes[out.length] = (sum >>> shift) & 255;
    out.length += 1;
  }
  return out.bytes.slice(0, out.length);
}

/** Sums are taken modulo 65521 before they can leave 32 bits. */
function adler(data: Uint8Array): number {
  let a = 1;
  let b = 0;
  for (let at = 0; at < data.length; ) {
    const end = Math.min(at + 3800, data.length);
    for (; at < end; at += 1) {
      a += data[at] as number;
      b += a;
    }
    a %= 65521;
    b %= 65521;
  }
  return ((b << 16) | a) >>> 0;
}

/** Writes one block from a place on; gives where the next begins. */
function block(data: Uint8Array, from: number): number {
  literalCounts.fill(0);
  distanceCounts.fill(0);
  literalCounts[endOfBlock] = 1;
  const end = data.length;
  const lastHash = end - leastRepeat;
  let count = 0;
  let at = from;
  while (at < end && count < mostTokens) {
    let length = 0;
    let distance = 0;
    if (at <= lastHash) {
      const hash = hashAt(data, at);
      const place = base + at;
      let candidate = heads[hash] as number;
      before[place & (windowSize - 1)] = candidate;
      heads[hash] = place;
      const oldest = Math.max(base, place - windowSize + 1);
      const most = Math.min(mostRepeat, end - at);
      for (let tries = mostTries; tries > 0 && candidate >= oldest; tries -= 1) {
        const other = candidate - base;
        // Longer than the best so far only if it goes on where that one ended.
        if (data[other + length] === data[at + length]) {
          let same = 0;
          while (same < most && data[other + same] === data[at + same]) same += 1;
          if (same > length) {
            length = same;
            distance = at - other;
            if (same >= goodLength || same === most) break;
          }
        }
        candidate = before[candidate & (windowSize - 1)] as number;
      }
    }
    if (length >= leastRepeat) {
      const symbol = 257 + (lengthSymbol[length] as number);
      const far = distanceSymbol(distance);
      literalCounts[symbol] = (literalCounts[symbol] as number) + 1;
      distanceCounts[far] = (distanceCounts[far] as number) + 1;
      tokens[count] = repeat | length;
      distances[count] = distance;
      const until = Math.min(at + length, at + mostInserted, lastHash + 1);
      for (let inside = at + 1; inside < until; inside += 1) {
        const hash = hashAt(data, inside);
        const place = base + inside;
        before[place & (windowSize - 1)] = heads[hash] as number;
        heads[hash] = place;
      }
      at += length;
    } else {
      const literal = data[at] as number;
      literalCounts[literal] = (literalCounts[literal] as number) + 1;
      tokens[count] = literal;
      at += 1;
    }
    count += 1;
  }
  writeBlock(data, from, at, count, at === end);
  return at;
}

const hashAt = (data: Uint8Array, at: number): number =>
  Math.imul(
    (data[at] as number) | ((data[at + 1] as number) << 8) | ((data[at + 2] as number) << 16) | ((data[at + 3] as number) << 24),
    0x9e3779b1,
  ) >>>
  (32 - hashBits);

/** As codes of its own, or plain where that is no longer. */
function writeBlock(data: Uint8Array, from: number, to: number, count: number, last: boolean): void {
  codeLengths(literalCounts, 15, literalLengths);
  // A code for distances must have a symbol, used or not.
  if (distanceCounts.every((one) => one === 0)) distanceCounts[0] = 1;
  codeLengths(distanceCounts, 15, distanceLengths);
  codesOf(literalLengths, literalCodes);
  codesOf(distanceLengths, distanceCodes);
  let bits = 0;
  for (let symbol = 0; symbol < 286; symbol += 1)
    bits +=
      (literalCounts[symbol] as number) * ((literalLengths[symbol] as number) + (symbol > 256 ? (lengthBits[symbol - 257] as number) : 0));
  for (let symbol = 0; symbol < 30; symbol += 1)
    bits += (distanceCounts[symbol] as number) * ((distanceLengths[symbol] as number) + (distanceBits[symbol] as number));
  if (bits > 8 * (to - from)) {
    writePlain(data, from, to, last);
    return;
  }
  out.room((bits >> 3) + 400);
  out.put(last ? 5 : 4, 3);
  writeLengths();
  for (let k = 0; k < count; k += 1) {
    const token = tokens[k] as number;
    if (token < repeat) {
      out.put(literalCodes[token] as number, literalLengths[token] as number);
      continue;
    }
    const length = token & (repeat - 1);
    const symbol = lengthSymbol[length] as number;
    out.put(literalCodes[257 + symbol] as number, literalLengths[257 + symbol] as number);
    out.put(length - (lengthFirst[symbol] as number), lengthBits[symbol] as number);
    const distance = distances[k] as number;
    const far = distanceSymbol(distance);
    out.put(distanceCodes[far] as number, distanceLengths[far] as number);
    out.put(distance - (distanceFirst[far] as number), distanceBits[far] as number);
  }
  out.put(literalCodes[endOfBlock] as number, literalLengths[endOfBlock] as number);
}

function writePlain(data: Uint8Array, from: number, to: number, last: boolean): void {
  for (let at = from; at < to; ) {
    const end = Math.min(to, at + 0xffff);
    out.put(last && end === to ? 1 : 0, 3);
    out.align();
    out.room(end - at + 4);
    const size = end - at;
    out.put(size, 16);
    out.put(size ^ 0xffff, 16);
    out.bytes.set(data.subarray(at, end), out.length);
    out.length += size;
    at = end;
  }
}

const allLengths = new Uint8Array(286 + 30);
const runSymbols = new Uint8Array(286 + 30);
const runRests = new Uint8Array(286 + 30);
const runCounts = new Uint32Array(19);
const runLengths = new Uint8Array(19);
const runCodes = new Uint16Array(19);

/** The two lists of lengths as one, runs written short: 16 says the last again 3 to 6 times, 17 and 18 nought 3 to 10 and 11 to 138 times. */
function writeLengths(): void {
  let literals = 286;
  while (literals > 257 && literalLengths[literals - 1] === 0) literals -= 1;
  let far = 30;
  while (far > 1 && distanceLengths[far - 1] === 0) far -= 1;
  allLengths.set(literalLengths.subarray(0, literals));
  allLengths.set(distanceLengths.subarray(0, far), literals);
  const total = literals + far;
  runCounts.fill(0);
  let count = 0;
  const run = (symbol: number, rest: number): void => {
    runSymbols[count] = symbol;
    runRests[count] = rest;
    runCounts[symbol] = (runCounts[symbol] as number) + 1;
    count += 1;
  };
  for (let at = 0; at < total; ) {
    const value = allLengths[at] as number;
    let end = at + 1;
    while (end < total && allLengths[end] === value) end += 1;
    let left = end - at;
    at = end;
    if (value === 0) {
      while (left >= 11) {
        const many = Math.min(left, 138);
        run(18, many - 11);
        left -= many;
      }
      if (left >= 3) {
        run(17, left - 3);
        left = 0;
      }
    } else {
      run(value, 0);
      left -= 1;
      while (left >= 3) {
        const many = Math.min(left, 6);
        run(16, many - 3);
        left -= many;
      }
    }
    for (; left > 0; left -= 1) run(value, 0);
  }
  codeLengths(runCounts, 7, runLengths);
  codesOf(runLengths, runCodes);
  let sent = 19;
  while (sent > 4 && runLengths[lengthOrder[sent - 1] as number] === 0) sent -= 1;
  out.put(literals - 257, 5);
  out.put(far - 1, 5);
  out.put(sent - 4, 4);
  for (let k = 0; k < sent; k += 1) out.put(runLengths[lengthOrder[k] as number] as number, 3);
  for (let k = 0; k < count; k += 1) {
    const symbol = runSymbols[k] as number;
    out.put(runCodes[symbol] as number, runLengths[symbol] as number);
    if (symbol >= 16) out.put(runRests[k] as number, symbol === 16 ? 2 : symbol === 17 ? 3 : 7);
  }
}
