/** The list of documents as the page has it: news from the worker, and what was kept of the last reading until the worker has read it itself. Pure. */
import type { DocumentLine, Overview, OverviewNews } from '../worker/queries/queries.ts';

export class Listing {
  private lines = new Map<string, DocumentLine>();
  /** Lines that stand as they were when all was read last, with what stood there before. */
  private readonly seeded = new Map<string, DocumentLine>();
  private around: Omit<Overview, 'documents'> = { publisher: '', models: [], machines: [], registers: [] };

  take({ lines, gone, ...around }: OverviewNews): Overview {
    this.around = around;
    for (const file of gone) {
      this.lines.delete(file);
      this.seeded.delete(file);
    }
    // What is known of the last reading says more than what is guessed.
    const newer = lines.filter(({ file, waits }) => !(waits && this.seeded.has(file)));
    for (const { file } of newer) this.seeded.delete(file);
    this.put(newer);
    return this.now();
  }

  /** As it was when all was read last; what has been read since is newer. */
  seed({ documents }: Overview): Overview {
    const older = documents.filter(({ file }) => this.lines.get(file)?.waits);
    for (const { file } of older) this.seeded.set(file, this.lines.get(file) as DocumentLine);
    this.put(older);
    return this.now();
  }

  /** What was kept of the last reading does not hold: what waits is said to wait again. */
  unseed(): Overview {
    this.put([...this.seeded.values()]);
    this.seeded.clear();
    return this.now();
  }

  private put(lines: readonly DocumentLine[]): void {
    const before = this.lines.size;
    for (const line of lines) this.lines.set(line.file, line);
    if (this.lines.size > before) this.lines = new Map([...this.lines].sort(([a], [b]) => (a < b ? -1 : 1)));
  }

  /** Procedures by file, then guides by file. */
  private now(): Overview {
    const all = [...this.lines.values()];
    const documents = [...all.filter(({ kind }) => kind === 'procedure'), ...all.filter(({ kind }) => kind === 'guide')];
    return { ...this.around, documents };
  }
}
