/**
 * Documents being written by a second worker, one after the other, and what came of each. Outlives every change of view; stopped at once when asked,
 * and nothing is half written then, because a file is written whole or not at all.
 */
import { type LongWorker, longWorker } from '../state/long-worker.ts';
import { writeOut } from '../state/saving.ts';
import { newStore } from '../state/store.ts';
import { words } from '../words/words.ts';
import type { Edition } from '../worker/queries/queries.ts';

export interface Wanted {
  readonly number: string;
  readonly edition: Edition;
}

export interface Outcome {
  readonly number: string;
  readonly text: string;
  readonly wrong: boolean;
}

interface Writing {
  readonly running: boolean;
  readonly wanted: readonly Wanted[];
  readonly done: readonly Outcome[];
  /** Procedures that the worker has read, of how many. */
  readonly read: { readonly done: number; readonly of: number };
  /** The page of the document at hand that was written last, of how many; none: its pages are being laid out. */
  readonly page: { readonly at: number; readonly of: number } | undefined;
  /** Files written, by name. */
  readonly names: readonly string[];
}

const NOTHING: Writing = { running: false, wanted: [], done: [], read: { done: 0, of: 0 }, page: undefined, names: [] };
export const writing = newStore<Writing>(NOTHING);

let stop: () => void = () => undefined;
export const stopWriting = (): void => stop();
/** Takes the report away; what was written stays. */
export const dismiss = (): void => writing.set(NOTHING);

class Stopped extends Error {}

/** One job at a time: while one goes on another is not begun. Answered with the names of the files written. */
export async function writeAll(wanted: readonly Wanted[]): Promise<readonly string[]> {
  if (writing.get().running || wanted.length === 0) return [];
  writing.set({ ...NOTHING, running: true, wanted });
  const worker = longWorker(
    (done, of) => writing.set({ read: { done, of } }),
    (at, of) => writing.set({ page: { at, of } }),
  );
  const stopped = new Promise<never>((_, reject) => {
    stop = () => reject(new Stopped(words.stoppedBefore));
  });
  let over: Error | undefined;
  for (const one of wanted) {
    const outcome =
      over === undefined
        ? await Promise.race([worker.ready.then(() => write(worker, one)), stopped]).catch((error: Error) => {
            if (error instanceof Stopped) over = error;
            return { text: `${words.notWritten}: ${error.message}`, wrong: true };
          })
        : { text: `${words.notWritten}: ${over.message}`, wrong: true };
    writing.set({ done: [...writing.get().done, { number: one.number, ...outcome }], page: undefined });
  }
  // Nobody may be left to hear of it.
  stopped.catch(() => undefined);
  worker.end();
  writing.set({ running: false });
  return writing.get().names;
}

async function write({ core, findings }: LongWorker, { edition }: Wanted): Promise<Omit<Outcome, 'number'>> {
  const blocking = edition.draft ? [] : await core.ask('blocking', { file: edition.file, findings: findings() });
  if (blocking === undefined) return { text: words.notWritten, wrong: true };
  if (blocking.length > 0) return { text: words.refusedFor(blocking.length), wrong: true };
  const made = await core.ask('pdf', edition);
  // Stopped meanwhile: the worker never answers then, and nothing is written.
  const path = made && (await writeOut(made.name, made.bytes));
  if (made === undefined || path === undefined) return { text: words.notWritten, wrong: true };
  writing.set({ names: [...writing.get().names, made.name] });
  const notes = made.notes.map(({ message }) => message);
  return { text: [`${path}, ${words.pagesCount(made.pages)}`, ...new Set(notes)].join('. '), wrong: false };
}
