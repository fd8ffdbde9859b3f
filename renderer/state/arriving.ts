/**
 * Findings of a long library that is being read: they come in bits and are held back for a moment, so that typing need not wait for lists. What an edit
 * says of a file meanwhile is shown at once, and is newer than what is held back of it.
 */
type Told<F> = readonly (readonly [file: string, findings: readonly F[]])[];

export class Arriving<F> {
  private readonly held = new Map<string, readonly F[]>();

  hold(bits: Told<F>): void {
    for (const [file, own] of bits) this.held.set(file, own);
  }

  /** Said by an answer that is shown already. */
  overtakenBy(answer: Told<F>): void {
    for (const [file] of answer) this.held.delete(file);
  }

  /** All that is held back; nothing is from here on. */
  take(): Told<F> {
    const all = [...this.held];
    this.held.clear();
    return all;
  }
}
