/**
 * A host on its own, as a process of its own, for tests that kill it: saves and journals texts one after another as fast as it can, and
 * says on standard output what it was told is safe. Started by `kill.test.ts`, with what to do as its one argument, in JSON.
 */
import { writeSync } from 'node:fs';
import { Journal } from '../../electron/host/journal/index.ts';
import { hashOf, nodeWriteDisk, saveFiles, type WriteDisk } from '../../electron/host/saving/index.ts';

export interface Orders {
  readonly root: string;
  readonly data: string;
  readonly work: 'save' | 'journal';
  /** Dies by its own hand at this step of the write path, at this round; without it, goes on until it is killed. */
  readonly die?: { readonly step: Step; readonly round: number };
  /** Length of each text, in lines. */
  readonly lines: number;
}

/** Where in the write path: before the new file beside, in the middle of it, after it, after it took its place, after the folder was flushed. */
export type Step = 'before beside' | 'half beside' | 'after beside' | 'after rename' | 'after flush';
export const STEPS: readonly Step[] = ['before beside', 'half beside', 'after beside', 'after rename', 'after flush'];

/** The text of one round: every line says which, so that a mixture of two shows. */
export const textOf = (round: number, lines: number): string => `round ${round}\n`.repeat(lines);

const kill = (): never => {
  process.kill(process.pid, 'SIGKILL');
  // The signal needs a moment; nothing may be done in it.
  for (;;);
};

function deadlyDisk(now: () => number, die: Orders['die']): WriteDisk {
  const at = (step: Step): void => {
    if (die?.step === step && die.round === now()) kill();
  };
  return {
    ...nodeWriteDisk,
    async writeFlushed(file, bytes, mode) {
      at('before beside');
      if (die?.step === 'half beside' && die.round === now()) {
        await nodeWriteDisk.writeFlushed(file, bytes.subarray(0, bytes.length / 2), mode);
        kill();
      }
      await nodeWriteDisk.writeFlushed(file, bytes, mode);
      at('after beside');
    },
    async rename(from, to) {
      await nodeWriteDisk.rename(from, to);
      at('after rename');
    },
    async flushFolder(folder) {
      await nodeWriteDisk.flushFolder(folder);
      at('after flush');
    },
  };
}

async function run({ root, data, work, die, lines }: Orders): Promise<void> {
  let round = 0;
  const disk = deadlyDisk(() => round, die);
  const journal = new Journal(data, disk);
  const own = 'procedures/a.md';
  for (;;) {
    round += 1;
    const text = textOf(round, lines);
    const base = hashOf(new TextEncoder().encode(textOf(round - 1, lines)));
    if (work === 'save') {
      const { saved } = await saveFiles(root, [{ path: own, base, text }], disk);
      if (saved.length !== 1) throw new Error('A save came back as a conflict.');
    } else await journal.put(root, 'window', [{ path: own, base, text }]);
    // Straight to the pipe: what was said before the kill has been said.
    writeSync(1, `${round}\n`);
  }
}

const orders = process.argv[2];
if (orders?.startsWith('{')) await run(JSON.parse(orders) as Orders);
