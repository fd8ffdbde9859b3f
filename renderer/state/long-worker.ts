/** A second worker for long jobs, so that typing never waits for a guide: fed with the library as it is now, ended when the job is. */
import { CoreClient } from '../worker/client.ts';
import { figureBytes, filmTextsRead, fontBytes, otherPaths } from './opening.ts';
import { documents } from './workspace.ts';

export interface LongWorker {
  readonly core: CoreClient;
  end(): void;
}

/** Answered when the library has been read there. */
export async function longWorker(failed: (message: string) => void): Promise<LongWorker> {
  let read: () => void = () => undefined;
  const ready = new Promise<void>((resolve) => {
    read = resolve;
  });
  const core = new CoreClient(
    () => read(),
    (message) => {
      failed(message);
      read();
    },
  );
  core.fonts(fontBytes());
  for (const [path, bytes] of figureBytes()) core.figure(path, bytes);
  core.edit([
    ...documents.list().map(({ path, text }) => ({ path, text })),
    ...otherPaths().map((path) => {
      const text = filmTextsRead().get(path);
      return text === undefined ? { path, present: true as const } : { path, text };
    }),
  ]);
  await ready;
  return { core, end: () => core.end() };
}
