/** The tests' own randomness, so that a seed repeats a run (xorshift32). */
export function randomFrom(seed: number): (below: number) => number {
  let state = seed | 0 || 1;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}

/** A seed for this run: HANDSCLEAR_SEED, else of the moment. Printed by whoever draws it. */
export const seedOfRun = (): number => Number(process.env.HANDSCLEAR_SEED ?? Date.now() % 2_147_483_647);

/** Up to `count` of a list, each once, in random order. */
export function drawn<T>(list: readonly T[], count: number, random: (below: number) => number): T[] {
  const rest = [...list];
  const out: T[] = [];
  while (out.length < count && rest.length > 0) out.push(...rest.splice(random(rest.length), 1));
  return out;
}
