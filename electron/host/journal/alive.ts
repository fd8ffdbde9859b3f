/**
 * Whether another host on this machine is still there, so that text in its open windows is not taken for lost. Each host listens on a door of
 * its own in the user's data; the system shuts that door when the process ends, however it ends. Nothing is ever said through it.
 */
import { randomBytes } from 'node:crypto';
import { readdir, unlink } from 'node:fs/promises';
import { connect, createServer, type Server } from 'node:net';
import path from 'node:path';

/** What the path of such a door may have on every system, in bytes (unix(7): 108 with the end); a longer one would be cut off unasked. */
const LONGEST = 100;
const NAME = /^h[0-9a-f]{12}$/;
const ENDING = '.here';
/** A host that is there takes a caller at once; milliseconds. */
const PATIENCE = 1_000;

export class Alive {
  private readonly folder: string;
  private server: Server | undefined;
  /** Undefined: this system or this place has no such doors; then nobody can be told apart, and all text counts as lost. */
  name: string | undefined;

  constructor(folder: string) {
    this.folder = folder;
  }

  /** The folder exists. Never fails. */
  async begin(): Promise<void> {
    const name = `h${randomBytes(6).toString('hex')}`;
    if (this.tooLong(name)) return;
    const server = createServer((caller) => caller.destroy());
    server.unref();
    const listening = await new Promise<boolean>((resolve) => {
      server.once('error', () => resolve(false));
      server.listen(this.door(name), () => resolve(true));
    });
    if (!listening) return;
    this.server = server;
    this.name = name;
    await this.sweep();
  }

  async isThere(name: string): Promise<boolean> {
    if (!NAME.test(name) || this.tooLong(name)) return false;
    return new Promise((resolve) => {
      const caller = connect(this.door(name));
      const answer = (there: boolean) => (): void => {
        caller.destroy();
        resolve(there);
      };
      caller.once('connect', answer(true));
      caller.once('error', answer(false));
      // It took no caller in all this time, but nobody says that it is gone.
      caller.setTimeout(PATIENCE, answer(true));
    });
  }

  async end(): Promise<void> {
    const { server } = this;
    this.server = undefined;
    this.name = undefined;
    if (server) await new Promise<void>((resolve) => server.close(() => resolve()));
  }

  private tooLong(name: string): boolean {
    return Buffer.byteLength(this.door(name)) > LONGEST;
  }

  private door(name: string): string {
    return process.platform === 'win32' ? `\\\\.\\pipe\\handsclear-${name}` : path.join(this.folder, `${name}${ENDING}`);
  }

  /** Doors of hosts that were killed stay behind as files. */
  private async sweep(): Promise<void> {
    for (const file of await readdir(this.folder).catch((): string[] => [])) {
      const name = file.slice(0, -ENDING.length);
      if (!file.endsWith(ENDING) || !NAME.test(name) || (await this.isThere(name))) continue;
      await unlink(path.join(this.folder, file)).catch(() => undefined);
    }
  }
}
