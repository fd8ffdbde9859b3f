/** Paths by number; of two with one number the first by path counts. */
export function numbersOf(...lists: readonly (readonly (readonly [string, string])[])[]): ReadonlyMap<string, string> {
  const out = new Map<string, string>();
  for (const [path, number] of lists.flat()) {
    const known = out.get(number);
    if (number !== '' && (known === undefined || path < known)) out.set(number, path);
  }
  return out;
}
