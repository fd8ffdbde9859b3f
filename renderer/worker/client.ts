/** The page's side of a worker: edits go out, what was checked comes back; questions are promises. Keeps no text. */
import type { Change } from '../../procedures-schema/index.ts';
import { takeWorker } from './first-worker.ts';
import type { FromWorker, ToWorker } from './protocol.ts';
import type { Answer, Ask, QueryName } from './queries/queries.ts';

type Checked = Extract<FromWorker, { kind: 'checked' }>;
type Background = Extract<FromWorker, { kind: 'background' }>;
type Between = Extract<FromWorker, { kind: 'between' }>['between'];

export class CoreClient {
  private readonly worker = takeWorker();
  private readonly waiting = new Map<number, { resolve: (answer: never) => void; reject: (error: Error) => void }>();
  private count = 0;
  private rev = 0;
  private busy = false;
  /** Edits that came while the worker was busy: only the newest text of each file is sent. */
  private readonly pending = new Map<string, Change>();
  private idle: (() => void)[] = [];

  private readonly checked: (checked: Checked, settled: boolean) => void;
  private readonly failed: (message: string) => void;
  private readonly more: (more: Background) => void;
  private readonly between: (between: Between) => void;
  private readonly listed: () => void;
  private readonly written: (page: number, of: number) => void;

  constructor(
    checked: (checked: Checked, settled: boolean) => void,
    failed: (message: string) => void,
    more: (more: Background) => void = () => undefined,
    between: (between: Between) => void = () => undefined,
    listed: () => void = () => undefined,
    written: (page: number, of: number) => void = () => undefined,
  ) {
    this.checked = checked;
    this.failed = failed;
    this.more = more;
    this.between = between;
    this.listed = listed;
    this.written = written;
    this.worker.onmessage = ({ data }: MessageEvent<FromWorker>) => this.hear(data);
    this.worker.onerror = ({ message }) => this.failed(message);
  }

  edit(changes: readonly Change[]): void {
    for (const change of changes) this.pending.set(change.path, change);
    if (!this.busy) this.flush();
  }

  /** Edits given meanwhile go out together when that is over: what is shown may come first. */
  hold(until: Promise<void>): void {
    this.busy = true;
    void until.then(() => this.free());
  }

  fonts(faces: Readonly<Record<string, Uint8Array>>): void {
    this.send({ kind: 'fonts', faces });
  }

  figure(path: string, bytes: Uint8Array): void {
    this.send({ kind: 'figure', path, bytes });
  }

  /** Answered after every edit given before it. */
  async ask<Q extends QueryName>(query: Q, ask: Ask<Q>): Promise<Answer<Q>> {
    if (this.busy || this.pending.size > 0) await new Promise<void>((resolve) => this.idle.push(resolve));
    this.count += 1;
    const id = this.count;
    return new Promise<Answer<Q>>((resolve, reject) => {
      this.waiting.set(id, { resolve: resolve as (answer: never) => void, reject });
      this.send({ kind: 'ask', id, query, ask } as ToWorker);
    });
  }

  /** Stops the worker; whatever is still asked is never answered. */
  end(): void {
    this.worker.terminate();
  }

  private flush(): void {
    this.busy = true;
    this.rev += 1;
    const changes = [...this.pending.values()];
    this.pending.clear();
    this.send({ kind: 'edit', rev: this.rev, changes });
  }

  private hear(message: FromWorker): void {
    if (message.kind === 'answer' || (message.kind === 'failed' && message.id !== undefined)) {
      const id = message.id as number;
      const waiting = this.waiting.get(id);
      this.waiting.delete(id);
      if (message.kind === 'answer') waiting?.resolve(message.answer as never);
      else waiting?.reject(new Error(message.message));
      return;
    }
    if (message.kind === 'background') return this.more(message);
    if (message.kind === 'between') return this.between(message.between);
    if (message.kind === 'listed') return this.listed();
    if (message.kind === 'written') return this.written(message.page, message.of);
    this.busy = false;
    if (message.kind === 'failed') this.failed(message.message);
    // Not settled: more was typed meanwhile and goes out at once.
    else this.checked(message, this.pending.size === 0);
    this.free();
  }

  private free(): void {
    this.busy = false;
    if (this.pending.size > 0) return this.flush();
    const idle = this.idle;
    this.idle = [];
    for (const go of idle) go();
  }

  private send(message: ToWorker): void {
    this.worker.postMessage(message);
  }
}
