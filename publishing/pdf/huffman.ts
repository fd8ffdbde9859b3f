/**
 * Lengths and codes of a prefix code for counted symbols, no code longer than a limit (RFC 1951, 3.2.2). Lengths in place after Moffat and Katajainen,
 * "In-Place Calculation of Minimum-Redundancy Codes" (1995); where one is too long, codes are moved down until the lengths are a full tree again.
 */

/** Sorts counts with their symbols in one number each. */
const symbolBits = 9;
const sorted = new Uint32Array(288);
const work = new Uint32Array(288);

/** Fills `lengths` from `counts`, which are below 2^23; a symbol never counted gets 0. At least one symbol must be counted. */
export function codeLengths(counts: Uint32Array, limit: number, lengths: Uint8Array): void {
  lengths.fill(0);
  let used = 0;
  for (let symbol = 0; symbol < counts.length; symbol += 1)
    if (counts[symbol] !== 0) {
      sorted[used] = ((counts[symbol] as number) << symbolBits) | symbol;
      used += 1;
    }
  const order = sorted.subarray(0, used).sort();
  for (let k = 0; k < used; k += 1) work[k] = (order[k] as number) >>> symbolBits;
  minimumRedundancy(work, used);
  const perLength = new Uint32Array(33);
  for (let k = 0; k < used; k += 1) {
    const length = Math.min(work[k] as number, limit);
    perLength[length] = (perLength[length] as number) + 1;
  }
  let total = 0;
  for (let length = 1; length <= limit; length += 1) total += (perLength[length] as number) << (limit - length);
  // Too many long codes for a tree: one of them takes the place beside a shorter one, which moves a level down.
  for (; used > 1 && total > 1 << limit; total -= 1) {
    perLength[limit] = (perLength[limit] as number) - 1;
    for (let length = limit - 1; length > 0; length -= 1)
      if (perLength[length] !== 0) {
        perLength[length] = (perLength[length] as number) - 1;
        perLength[length + 1] = (perLength[length + 1] as number) + 2;
        break;
      }
  }
  // The rarest symbols come first and get the longest codes.
  let at = used;
  for (let length = 1; length <= limit; length += 1)
    for (let left = perLength[length] as number; left > 0; left -= 1) {
      at -= 1;
      lengths[(order[at] as number) & ((1 << symbolBits) - 1)] = length;
    }
}

/** Counts in ascending order become code lengths in descending order. */
function minimumRedundancy(a: Uint32Array, count: number): void {
  if (count < 2) {
    a[0] = 1;
    return;
  }
  const of = (index: number): number => a[index] as number;
  a[0] = of(0) + of(1);
  let root = 0;
  let leaf = 2;
  for (let next = 1; next < count - 1; next += 1) {
    if (leaf >= count || of(root) < of(leaf)) {
      a[next] = of(root);
      a[root] = next;
      root += 1;
    } else {
      a[next] = of(leaf);
      leaf += 1;
    }
    if (leaf >= count || (root < next && of(root) < of(leaf))) {
      a[next] = of(next) + of(root);
      a[root] = next;
      root += 1;
    } else {
      a[next] = of(next) + of(leaf);
      leaf += 1;
    }
  }
  a[count - 2] = 0;
  for (let next = count - 3; next >= 0; next -= 1) a[next] = of(of(next)) + 1;
  let available = 1;
  let inner = count - 2;
  let next = count - 1;
  for (let depth = 0; available > 0; depth += 1) {
    let internal = 0;
    while (inner >= 0 && of(inner) === depth) {
      internal += 1;
      inner -= 1;
    }
    for (; available > internal; available -= 1) {
      a[next] = depth;
      next -= 1;
    }
    available = 2 * internal;
  }
}

const firstCode = new Uint16Array(17);

/** Codes in the order of RFC 1951, each with its bits turned round: deflate sends them from the other end. */
export function codesOf(lengths: Uint8Array, codes: Uint16Array): void {
  const perLength = new Uint16Array(17);
  for (let symbol = 0; symbol < lengths.length; symbol += 1)
    perLength[lengths[symbol] as number] = (perLength[lengths[symbol] as number] as number) + 1;
  perLength[0] = 0;
  for (let length = 1, code = 0; length <= 16; length += 1) {
    code = (code + (perLength[length - 1] as number)) << 1;
    firstCode[length] = code;
  }
  for (let symbol = 0; symbol < lengths.length; symbol += 1) {
    const length = lengths[symbol] as number;
    if (length === 0) continue;
    let code = firstCode[length] as number;
    firstCode[length] = code + 1;
    let turned = 0;
    for (let bit = 0; bit < length; bit += 1) {
      turned = (turned << 1) | (code & 1);
      code >>= 1;
    }
    codes[symbol] = turned;
  }
}
