/** When a long library may be read on: whoever types goes first. All times are milliseconds of one clock. */

/**
 * For so long after a key nothing is read, so that the processor is the page's while words are written. It is longer than the time between two keys of a
 * word, and shorter than a pause for thought.
 */
const MANNERS = 250;
/** Whoever never pauses gets a little read all the same, this often. */
const PATIENCE = 5000;

export class Manners {
  private keyAt = Number.NEGATIVE_INFINITY;
  private readAt = Number.NEGATIVE_INFINITY;

  key(now: number): void {
    this.keyAt = now;
  }

  /** Reading begins, or a little was read. */
  read(now: number): void {
    this.readAt = now;
  }

  /** How long it is to wait still; nothing or less: not at all. */
  heldFor(now: number): number {
    return Math.min(this.keyAt + MANNERS, this.readAt + PATIENCE) - now;
  }
}
