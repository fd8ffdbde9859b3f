/**
 * Kills the host a hundred times while it writes, and looks at what is on disk then: the old text or the new one, whole, never a mixture;
 * what was said to be safe is there; and the rest of a save that died is taken away by the next start.
 */
import { spawn } from 'node:child_process';
import path from 'node:path';
import { build } from 'esbuild';
import { beforeAll, describe, expect, test } from 'vitest';
import { Journal } from '../../electron/host/journal/index.ts';
import { hashOf, nodeWriteDisk, removeLeftovers, saveFiles } from '../../electron/host/saving/index.ts';
import { filesIn, newFolder, newLibrary, read, SMALL } from '../support/host.ts';
import { randomFrom, seedOfRun } from '../support/random.ts';
import { type Orders, STEPS, textOf } from '../support/writer-process.ts';

/** Five at a time, ten kinds of death by injection and ten rounds at random: a hundred in all. */
const TIMES = 5;
const LINES = 2_000;
const OWN = 'procedures/a.md';
const seed = seedOfRun();
const random = randomFrom(seed);

const program = path.join(newFolder(), 'writer-process.mjs');
beforeAll(async () => {
  await build({
    entryPoints: [path.join(import.meta.dirname, '../support/writer-process.ts')],
    outfile: program,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'error',
  });
});

interface Death {
  readonly root: string;
  readonly data: string;
  /** The last round that was said to be safe; 0: none. */
  readonly safe: number;
}

/** `after`: milliseconds from the first round that was safe to the kill; without it, the process dies by its orders. */
function die(orders: Pick<Orders, 'work' | 'die'>, after?: number): Promise<Death> {
  const root = newLibrary({ ...SMALL, [OWN]: textOf(0, LINES) });
  const data = newFolder();
  const child = spawn(process.execPath, [program, JSON.stringify({ root, data, lines: LINES, ...orders } satisfies Orders)], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  let complaint = '';
  let waiting = false;
  child.stderr.on('data', (part) => {
    complaint += part;
  });
  child.stdout.on('data', (part) => {
    said += part;
    if (after === undefined || waiting) return;
    waiting = true;
    setTimeout(() => child.kill('SIGKILL'), after);
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code, signal) => {
      const rounds = said.split('\n').slice(0, -1).map(Number);
      if (signal === 'SIGKILL') resolve({ root, data, safe: rounds.at(-1) ?? 0 });
      else reject(new Error(`The process ended by itself with ${code}: ${complaint}`));
    });
  });
}

/** Which round's text this is, whole; else a sentence. */
function roundOf(text: string, safe: number): number | string {
  for (const round of [safe, safe + 1]) if (text === textOf(round, LINES)) return round;
  return `neither round ${safe} nor the next, but ${text.length} letters from "${text.slice(0, 20)}" to "${text.slice(-20)}"`;
}

async function afterSaving({ root, safe }: Death): Promise<number | string> {
  const round = roundOf(read(root, OWN), safe);
  const others = filesIn(root).filter((own) => !Object.hasOwn(SMALL, own));
  expect(others.filter((own) => !/^procedures\/\.hc-[0-9a-f-]+\.part$/.test(own))).toEqual([]);
  expect(others.length).toBeLessThanOrEqual(1);
  // The next start clears up and saves on.
  await removeLeftovers(root, ['procedures'], Date.now() + 3_600_000);
  expect(filesIn(root)).toEqual(Object.keys(SMALL).sort());
  const base = hashOf(new TextEncoder().encode(read(root, OWN)));
  expect((await saveFiles(root, [{ path: OWN, base, text: 'next\n' }], nodeWriteDisk)).saved).toHaveLength(1);
  return round;
}

async function afterJournalling({ root, data, safe }: Death): Promise<number | string> {
  const entries = await new Journal(data, nodeWriteDisk).list(root);
  if (entries.length === 0 && safe === 0) return 0;
  expect(entries.map((one) => [one.path, one.window])).toEqual([[OWN, 'window']]);
  expect(read(root, OWN)).toBe(textOf(0, LINES));
  // The next start keeps on journalling over what is left.
  await new Journal(data, nodeWriteDisk).put(root, 'window', [{ path: OWN, base: null, text: 'next\n' }]);
  expect((await new Journal(data, nodeWriteDisk).list(root)).map(({ text }) => text)).toEqual(['next\n']);
  return roundOf(entries[0]?.text ?? '', safe);
}

const WORK = { save: afterSaving, journal: afterJournalling } as const;
const rounds = [1, 2, 3, 5, 8];

describe.skipIf(process.platform === 'win32').each(['save', 'journal'] as const)('killed in the middle of: %s', (work) => {
  test.each(STEPS)('%s', async (step) => {
    const deaths = await Promise.all(rounds.slice(0, TIMES).map((round) => die({ work, die: { step, round } })));
    const found: (number | string)[] = [];
    for (const death of deaths) found.push(await WORK[work](death));
    // From the moment in which the new file took its place the new text is there, although nobody was told yet.
    const there = step === 'after rename' || step === 'after flush' ? 0 : 1;
    expect(found).toEqual(rounds.map((round) => round - there));
  });

  test.each([1, 2, 3, 4, 5])('at any moment (%i)', async (time) => {
    const waits = Array.from({ length: TIMES }, () => random(40));
    const deaths = await Promise.all(waits.map((wait) => die({ work }, wait)));
    for (const death of deaths) expect(await WORK[work](death), `HANDSCLEAR_SEED=${seed}, ${time}`).toBeTypeOf('number');
    expect(deaths.every(({ safe }) => safe > 0)).toBe(true);
  });
});

test('a mixture of two texts would be noticed', () => {
  expect(roundOf(textOf(3, LINES), 3)).toBe(3);
  expect(roundOf(textOf(4, LINES), 3)).toBe(4);
  expect(roundOf(textOf(3, LINES).slice(0, -1), 3)).toBeTypeOf('string');
  expect(roundOf(textOf(3, LINES - 1) + textOf(4, 1), 3)).toBeTypeOf('string');
  expect(roundOf('', 3)).toBeTypeOf('string');
});
