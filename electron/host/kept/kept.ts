/** A small record kept as JSON in the user's own data: read whole, written whole. What cannot be read back counts as the first state. */
import { Turns, type WriteDisk, writeWhole } from '../saving/index.ts';

export class Kept<T> {
  private readonly file: string;
  private readonly disk: WriteDisk;
  private readonly parse: (value: unknown) => T;
  private readonly turns = new Turns();

  /** `parse` takes anything, also undefined, and gives what of it is sound. */
  constructor(file: string, disk: WriteDisk, parse: (value: unknown) => T) {
    this.file = file;
    this.disk = disk;
    this.parse = parse;
  }

  async read(): Promise<T> {
    try {
      const bytes = await this.disk.read(this.file);
      return this.parse(bytes === undefined ? undefined : JSON.parse(new TextDecoder().decode(bytes)));
    } catch {
      return this.parse(undefined);
    }
  }

  /** Two changes at once both count. */
  async change(to: (before: T) => T): Promise<T> {
    return this.turns.run(this.file, async () => {
      const after = to(await this.read());
      await writeWhole(this.file, new TextEncoder().encode(`${JSON.stringify(after, undefined, 1)}\n`), this.disk);
      return after;
    });
  }
}
