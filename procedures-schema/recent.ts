/**
 * A map that forgets what has not been asked for lately. Two halves: when the newer one is full it becomes the older, and what the
 * older still held is gone. What is asked for moves to the newer.
 */
interface Half<K, V> {
  get(key: K): V | undefined;
  has(key: K): boolean;
  set(key: K, value: V): unknown;
}

export class Recent<K, V> {
  #newer: Half<K, V>;
  #older: Half<K, V>;
  #inNewer = 0;
  #inOlder = 0;
  readonly #half: number;
  readonly #fresh: () => Half<K, V>;

  /** `half`: entries in each half; at least so many of the last used are there, and never more than twice as many. */
  constructor(half: number, fresh: () => Half<K, V> = () => new Map<K, V>()) {
    this.#half = half;
    this.#fresh = fresh;
    this.#newer = fresh();
    this.#older = fresh();
  }

  /** Keeps no object alive that nobody else holds. */
  static ofObjects<K extends object, V>(half: number): Recent<K, V> {
    return new Recent<K, V>(half, () => new WeakMap<K, V>());
  }

  get(key: K): V | undefined {
    const known = this.#newer.get(key);
    if (known !== undefined) return known;
    const old = this.#older.get(key);
    if (old !== undefined) this.set(key, old);
    return old;
  }

  set(key: K, value: V): void {
    const isNew = !this.#newer.has(key);
    if (isNew && this.#inNewer >= this.#half) {
      this.#older = this.#newer;
      this.#inOlder = this.#inNewer;
      this.#newer = this.#fresh();
      this.#inNewer = 0;
    }
    if (isNew) this.#inNewer += 1;
    this.#newer.set(key, value);
  }

  /** Entries held; one that moved from the older half to the newer counts in both. */
  get size(): number {
    return this.#inNewer + this.#inOlder;
  }
}
