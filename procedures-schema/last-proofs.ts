/** Of the procedures that are being worked on the last proof, for the next one. */
import { ProvedBefore } from './flow/index.ts';
import { isProcedure } from './pipeline.ts';
import { Recent } from './recent.ts';

/** So many at the same time; of all of a long library they would fill the memory, and nobody edits those. */
const EDITED = 3;

export class LastProofs {
  readonly #kept = new Recent<string, ProvedBefore>(EDITED);

  /** Before these are proved: a few are being edited, many were only opened. */
  edit(paths: ReadonlySet<string>): void {
    if (paths.size > EDITED) return;
    for (const path of paths) if (isProcedure(path) && !this.#kept.get(path)) this.#kept.set(path, new ProvedBefore());
  }

  of(path: string): ProvedBefore | undefined {
    return this.#kept.get(path);
  }
}
