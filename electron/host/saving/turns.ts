/** Jobs with the same key one after another, in the order in which they came; jobs with other keys beside them. */
export class Turns {
  private readonly last = new Map<string, Promise<unknown>>();

  /** The job's own answer or error. A job that fails does not keep the next from its turn. */
  run<T>(key: string, job: () => Promise<T>): Promise<T> {
    const before = this.last.get(key) ?? Promise.resolve();
    const own = before.then(job, job);
    const settled = own.then(
      () => undefined,
      () => undefined,
    );
    this.last.set(key, settled);
    void settled.then(() => {
      if (this.last.get(key) === settled) this.last.delete(key);
    });
    return own;
  }

  /** When all that has come so far is done. */
  async all(): Promise<void> {
    while (this.last.size > 0) await Promise.all(this.last.values());
  }
}
