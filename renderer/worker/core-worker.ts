/** Entry of the worker: core and publishing off the page's thread, so that typing never waits. Long jobs have a second worker of this same file. */
import type { LibraryModel } from './library-model.ts';
import { KeptLibrary } from './library-model.ts';
import type { FromWorker, ToWorker } from './protocol.ts';
import { queries } from './queries/queries.ts';

const library = new KeptLibrary();
const scope = globalThis as unknown as {
  postMessage(message: FromWorker): void;
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
};
const say = (message: FromWorker): void => scope.postMessage(message);

scope.onmessage = ({ data }) => {
  try {
    treat(data);
  } catch (error) {
    const { message } = error as Error;
    say({ kind: 'failed', id: data.kind === 'ask' ? data.id : undefined, message });
  }
};

function treat(message: ToWorker): void {
  switch (message.kind) {
    case 'edit': {
      const begun = performance.now();
      const delta = library.apply(message.changes);
      const milliseconds = performance.now() - begun;
      return say({ kind: 'checked', rev: message.rev, findings: [...delta.findings], between: delta.between, milliseconds });
    }
    case 'fonts':
      library.fonts = message.faces as LibraryModel['fonts'];
      return;
    case 'figure':
      return library.addFigure(message.path, message.bytes);
    case 'ask': {
      const query = queries[message.query] as (model: LibraryModel, ask: unknown) => never;
      return say({ kind: 'answer', id: message.id, answer: query(library, message.ask) });
    }
  }
}
