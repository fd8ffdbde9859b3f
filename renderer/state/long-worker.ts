/** A second worker for long jobs, so that typing never waits for a guide: fed with the library as it is now, ended when the job is. */
import type { Finding } from '../../procedures-schema/index.ts';
import { CoreClient } from '../worker/client.ts';
import { fontBytes } from './opening.ts';
import { figureBytes, filmTextsRead, otherPaths } from './other-files.ts';
import { documents } from './workspace.ts';

export interface LongWorker {
  readonly core: CoreClient;
  /** What was found in the texts that it was given; whole when these are read. */
  findings(): readonly Finding[];
  /** Done when the library has been read there. */
  readonly ready: Promise<void>;
  end(): void;
}

/** `read`: told how many procedures of how many are read; `written`: which page of how many is written of the document that is asked for. */
export function longWorker(
  read: (done: number, of: number) => void,
  written: (page: number, of: number) => void = () => undefined,
): LongWorker {
  const found = new Map<string, readonly Finding[]>();
  let between: readonly Finding[] | undefined;
  let [done, fail]: [() => void, (error: Error) => void] = [() => undefined, () => undefined];
  const ready = new Promise<void>((resolve, reject) => {
    [done, fail] = [resolve, reject];
  });
  const texts = documents.list().map(({ path, text }) => ({ path, text }));
  const isLater = (path: string): boolean => path.startsWith('procedures/');
  const of = texts.filter(({ path }) => isLater(path)).length;
  let waits = of;
  const take = (
    findings: readonly (readonly [string, readonly Finding[]])[],
    waiting: number,
    own: readonly Finding[] | undefined,
  ): void => {
    for (const [file, some] of findings) found.set(file, some);
    waits = waiting;
    between = waiting > 0 ? undefined : own;
    read(of - waiting, of);
    if (between !== undefined) done();
  };
  const core = new CoreClient(
    ({ findings, waiting, between: own }) => take(findings, waiting, own),
    (message) => fail(new Error(message)),
    ({ findings, waiting, between: own }) => take(findings, waiting, own),
    (own) => take([], waits, own),
    undefined,
    written,
  );
  read(0, of);
  core.fonts(fontBytes());
  for (const [path, bytes] of figureBytes()) core.figure(path, bytes);
  core.edit([
    // Bit by bit, so that it can be told how far this is.
    ...texts.map((file) => (isLater(file.path) ? { ...file, later: true as const } : file)),
    ...otherPaths().map((path) => {
      const text = filmTextsRead().get(path);
      return text === undefined ? { path, present: true as const } : { path, text };
    }),
  ]);
  return { core, ready, findings: () => [...(between ?? []), ...[...found.values()].flat()], end: () => core.end() };
}
