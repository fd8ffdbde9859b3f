/**
 * A map that forgets what has not been asked for lately. Two halves: when the newer one is full it becomes the older, and what the
 * older still held is gone. What is asked for moves to the newer.
 */
export class Recent<V> {
  #newer = new Map<string, V>();
  #older = new Map<string, V>();
  readonly #half: number;

  /** `half`: entries in each half; at least so many of the last used are there, and never more than twice as many. */
  constructor(half: number) {
    this.#half = half;
  }

  get(key: string): V | undefined {
    const known = this.#newer.get(key);
    if (known !== undefined) return known;
    const old = this.#older.get(key);
    if (old !== undefined) this.set(key, old);
    return old;
  }

  set(key: string, value: V): void {
    if (this.#newer.size >= this.#half && !this.#newer.has(key)) {
      this.#older = this.#newer;
      this.#newer = new Map();
    }
    this.#newer.set(key, value);
  }

  get size(): number {
    return this.#newer.size + [...this.#older.keys()].filter((key) => !this.#newer.has(key)).length;
  }
}
