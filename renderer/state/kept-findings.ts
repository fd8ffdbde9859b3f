/**
 * What was found in a long library when it was last read whole, kept by the host under the content of all its texts, the size and time of its pictures,
 * and the engine that read them. Shown at once when none has changed, until the reading that goes on behind it says the same; never trusted beyond
 * that. Pictures are read after it: where one has other content all the same, what was kept is taken back.
 */
import type { Finding } from '../../procedures-schema/index.ts';
import { call } from '../host.ts';
import type { Overview } from '../worker/queries/queries.ts';
import { figureBytes, figuresRead, otherPaths } from './other-files.ts';
import { shown } from './shown.ts';
import { documents, here, listing } from './workspace.ts';

/** Shorter libraries are read before anybody has looked. */
const LONG = 40;
const NAME = 'findings';

interface Kept {
  readonly key: string;
  /** Of the content of all pictures, which is known later than the key. */
  readonly pictures: string;
  readonly findings: readonly (readonly [string, readonly Finding[]])[];
  readonly overview: Overview | undefined;
}

/** Begins with the next library that is read. */
export function keepFindings(): void {
  let offered = false;
  shown.listen(
    () => {
      const { waiting, revision } = shown.get();
      if (revision === 0 || documents.list().length < LONG) return;
      if (waiting === 0) void keep().catch(() => undefined);
      else if (!offered) void offer().catch(() => undefined);
      offered = true;
    },
    'waiting',
    'revision',
    'unsaved',
  );
}

/** Undefined while something is not on disk: then it is not what the next opening will find. */
async function keyNow(): Promise<string | undefined> {
  if (documents.unsaved().length > 0) return undefined;
  const files = documents.list().map(({ path, base }) => `${path} ${base}`);
  const { stamp } = await call('library.stamp', { library: here.library });
  return digestOf(new TextEncoder().encode([shown.get().engine, stamp, ...files.sort()].join('\n')));
}

async function picturesNow(): Promise<string> {
  await figuresRead;
  const figures = figureBytes();
  const others = otherPaths().map(async (path) => `${path} ${await contentOf(figures.get(path))}`);
  return digestOf(new TextEncoder().encode((await Promise.all(others)).join('\n')));
}

/** Pictures as they were read; a changed one is other bytes. */
const contents = new WeakMap<Uint8Array, Promise<string>>();
function contentOf(bytes: Uint8Array | undefined): Promise<string> | string {
  if (bytes === undefined) return '';
  const content = contents.get(bytes) ?? digestOf(bytes);
  contents.set(bytes, content);
  return content;
}

async function digestOf(bytes: Uint8Array): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>));
  return [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

let last: string | undefined;

async function keep(): Promise<void> {
  const pictures = await picturesNow();
  const key = await keyNow();
  const { findings, overview, waiting, checking } = shown.get();
  // When the answer is there this is asked again.
  if (key === undefined || key === last || waiting > 0 || checking) return;
  last = key;
  const kept: Kept = { key, pictures, findings: [...findings], overview };
  await call('cache.write', { library: here.library, name: NAME, text: JSON.stringify(kept) });
}

async function offer(): Promise<void> {
  const { text } = await call('cache.read', { library: here.library, name: NAME });
  if (text === null) return;
  const kept = JSON.parse(text) as Kept;
  const key = await keyNow();
  const { waiting, findings } = shown.get();
  if (waiting === 0 || kept.key !== key) return;
  // What has been read by now is newer.
  shown.set({ findings: new Map([...kept.findings, ...findings]), ...(kept.overview ? { overview: listing.seed(kept.overview) } : {}) });
  if (kept.pictures !== (await picturesNow())) takeBack(kept);
}

/** What was read since stays. */
function takeBack({ findings: kept }: Kept): void {
  const old = new Map(kept);
  const { findings } = shown.get();
  shown.set({ findings: new Map([...findings].filter(([file, own]) => old.get(file) !== own)), overview: listing.unseed() });
}
