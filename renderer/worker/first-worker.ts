/** The core's worker, begun before the rest of the page is there, because it takes longest to be ready. */
const begin = (): Worker => new Worker(new URL('./core-worker.ts', import.meta.url), { type: 'module', name: 'core' });

let begun: Worker | undefined = begin();

/** The one that was begun, once; after that new ones. */
export function takeWorker(): Worker {
  const worker = begun ?? begin();
  begun = undefined;
  return worker;
}
