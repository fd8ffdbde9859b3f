/** Which files name which document numbers: who must be proved again when a procedure changes. Errs on the side of naming too many. */

/** Numbers of this form are found by whole runs of such characters; others by looking through the texts. */
const RUN = /[A-Za-z0-9-]*\d[A-Za-z0-9-]*/g;

const NONE: ReadonlySet<string> = new Set();

export class Mentions {
  private readonly texts = new Map<string, string>();
  private readonly runs = new Map<string, ReadonlySet<string>>();
  private readonly files = new Map<string, Set<string>>();

  set(file: string, text: string): void {
    if (this.texts.get(file) === text) return;
    this.delete(file);
    const own = new Set(text.match(RUN));
    this.texts.set(file, text);
    this.runs.set(file, own);
    for (const run of own) {
      const known = this.files.get(run);
      if (known) known.add(file);
      else this.files.set(run, new Set([file]));
    }
  }

  delete(file: string): void {
    for (const run of this.runs.get(file) ?? []) {
      const known = this.files.get(run);
      known?.delete(file);
      if (known?.size === 0) this.files.delete(run);
    }
    this.runs.delete(file);
    this.texts.delete(file);
  }

  /** Files that name the number, in no order. */
  of(number: string): readonly string[] {
    if (number === '') return [];
    if (/^[A-Za-z0-9-]*\d[A-Za-z0-9-]*$/.test(number)) return [...(this.files.get(number) ?? [])];
    return [...this.texts].flatMap(([file, text]) => (text.includes(number) ? [file] : []));
  }

  /** Everything in a file that may be a number. */
  runsIn(file: string): ReadonlySet<string> {
    return this.runs.get(file) ?? NONE;
  }
}
