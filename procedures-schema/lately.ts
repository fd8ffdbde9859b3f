/**
 * What was worked out of an object, remembered for those asked about last, and no longer than the object itself. Two halves: when the newer one
 * is full it becomes the older, and what the older still held is worked out again when somebody asks.
 */
export class Lately<K extends object, V> {
  #newer = new WeakMap<K, V>();
  #older = new WeakMap<K, V>();
  #count = 0;
  readonly #half: number;

  /** `half`: entries in each half; never more than twice as many are remembered. */
  constructor(half: number) {
    this.#half = half;
  }

  get(key: K): V | undefined {
    const known = this.#newer.get(key);
    if (known !== undefined) return known;
    const old = this.#older.get(key);
    if (old !== undefined) this.set(key, old);
    return old;
  }

  set(key: K, value: V): void {
    if (this.#count >= this.#half && !this.#newer.has(key)) {
      this.#older = this.#newer;
      this.#newer = new WeakMap();
      this.#count = 0;
    }
    if (!this.#newer.has(key)) this.#count += 1;
    this.#newer.set(key, value);
  }
}
