/** For our own bugs only: a broken invariant is never a finding and never "not understood". */
export class InvariantError extends Error {
  override name = 'InvariantError';
}

export function invariant(condition: unknown, sentence: string): asserts condition {
  if (!condition) throw new InvariantError(sentence);
}

/** For switch statements that must be complete: the compiler complains before the run does. */
export function never(value: never): never {
  throw new InvariantError(`unexpected case ${String(value)}`);
}
