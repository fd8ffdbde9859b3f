/** Paths in the order in which they are read. */
export function inOrder(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The first `count`, without looking at the others, which may be thousands. */
export function firstOf<T>(all: Iterable<T>, count: number): T[] {
  const out: T[] = [];
  for (const one of all) {
    if (out.length >= count) break;
    out.push(one);
  }
  return out;
}
